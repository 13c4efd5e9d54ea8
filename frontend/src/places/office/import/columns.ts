// The columns of a file: the recognised ones, and what a person's choice changes.
import type { Shape } from '../../../lib/api/types'
import type { Mapping } from './fileReader.svelte'

type Read = Pick<Shape<'ImportOut'>, 'columns' | 'headings' | 'fields' | 'rows'>

export interface Column {
  sheet: string
  /** The name of its sheet, or of its list where a sheet holds several; "" if the file has one list only. */
  group: string
  /** The name of its list; "" unless its sheet holds several. */
  table: string
  /** The name of its list in any case; "" if the file was read before lists were named. */
  list: string
  at: string
  heading: string
  /** Some of its texts, where it is called by its letter; "" for a column with a heading. */
  holds: string
  /** The field that it is read as; "" if it is ignored. */
  field: string
}

/** Returns each column with a heading, in the order of the file. */
export function columns({ columns: recognisedColumns, headings }: Read): Column[] {
  return headings.map(({ sheet, column, heading, table = '', holds }) => ({
    sheet,
    group: groupOf(headings, sheet, table),
    table: holdsSeveral(headings, sheet) ? table : '',
    list: table,
    at: column,
    heading,
    holds: holds?.map((text) => `“${text}”`).join(', ') ?? '',
    field:
      recognisedColumns.find(
        (candidate) =>
          candidate.sheet === sheet && candidate.column === column && candidate.heading === heading,
      )?.field ?? '',
  }))
}

function groupOf(headings: Read['headings'], sheet: string, table: string): string {
  if (holdsSeveral(headings, sheet)) return table
  return new Set(headings.map((other) => other.sheet)).size > 1 ? sheet : ''
}

/** Returns whether a sheet holds several lists, one below the other. */
function holdsSeveral(headings: Read['headings'], sheet: string): boolean {
  return new Set(headings.filter((other) => other.sheet === sheet).map((other) => other.table)).size > 1
}

interface Known {
  sheet: string
  group: string
  columns: { at: string; words: string }[]
}

/**
 * Returns the recognised columns ("A = part number") of each table. A sheet may hold several tables, one below the
 * other.
 */
export function recognised(read: Read): Known[] {
  const tables: Known[] = []
  for (const { sheet, group, at, field } of columns(read)) {
    const last = tables.at(-1)
    const same = last?.sheet === sheet && last.group === group
    if (!same || last.columns.some((column) => column.at === at)) tables.push({ sheet, group, columns: [] })
    if (field) tables.at(-1)?.columns.push({ at, words: words(read, field) })
  }
  return tables.filter((table) => table.columns.length)
}

/** Words a field. An attribute or capacity that the file itself names keeps that name. */
export function words({ fields }: Pick<Read, 'fields'>, field: string): string {
  return fields.find((candidate) => candidate.field === field)?.words ?? field.replace(/^.*:/, '')
}

/** Returns the required fields without a column; none once rows were read. */
export function missing(read: Read): string[] {
  if (read.rows) return []
  const presentFields = new Set(read.columns.map((column) => column.field))
  return read.fields
    .filter((field) => field.required && !presentFields.has(field.field))
    .map((field) => field.words)
}

/** Returns the fields that the column's list has; those of all lists while it is not sure which list it is. */
export function fieldsFor(read: Read, list: string): Read['fields'] {
  if (!list || missing(read).length) return read.fields
  const own = read.fields.filter(({ tables }) => tables?.includes(list))
  return own.length ? own : read.fields
}

/** Returns the fields without which the main list of this kind of file is not read. */
export function neededFirst({ fields }: Pick<Read, 'fields'>): Read['fields'] {
  const main = fields[0]?.tables?.[0]
  return fields.filter(({ required, tables }) => required && (main === undefined || tables?.includes(main)))
}

/** Returns `chosen` with `field` for column `n`. Another column of the same list loses that field. */
export function choose(
  shownColumns: readonly Column[],
  chosen: readonly string[],
  n: number,
  field: string,
): string[] {
  return chosen.map((had, i) => {
    if (i === n) return field
    return field && had === field && listOf(shownColumns[i]) === listOf(shownColumns[n]) ? '' : had
  })
}

const listOf = (column: Column | undefined) => JSON.stringify([column?.sheet, column?.table])

// Fields that the heading completes: a column "Sunroof" read as an attribute is the attribute "sunroof".
const OPEN = new Set(['attribute', 'capacity'])

/** Returns the mapping to send: `before` with the new choices; null if nothing changed. */
export function changed(
  shownColumns: readonly Column[],
  chosen: readonly string[],
  before: Mapping,
): Mapping | null {
  const next = { ...before }
  let moved = false
  for (const [n, { heading, table, field: had }] of shownColumns.entries()) {
    const field = chosen[n] ?? had
    if (!field || field === had) continue
    const name = OPEN.has(field) ? `${field}:${heading.toLowerCase()}` : field
    give(next, table ? `${table}.${name}` : name, heading)
    moved = true
  }
  return moved ? next : null
}

/** Returns the mapping with the headings that a person typed for a file without any; null if none were typed. */
export function written(texts: Mapping, before: Mapping): Mapping | null {
  const headings = Object.entries(texts).filter(([, heading]) => heading.trim())
  if (!headings.length) return null
  const next = { ...before }
  for (const [field, heading] of headings) give(next, field, heading.trim())
  return next
}

/** Gives the heading to the field, and takes it from other fields of the same list or of any list. */
function give(mapping: Mapping, field: string, heading: string): void {
  const table = tableOf(field)
  for (const [other, has] of Object.entries(mapping))
    if (has === heading && (!table || ['', table].includes(tableOf(other)))) delete mapping[other]
  mapping[field] = heading
}

const tableOf = (field: string) => field.slice(0, Math.max(0, field.lastIndexOf('.')))
