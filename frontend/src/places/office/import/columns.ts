// Which column holds what: what was recognised, what may be chosen, and what a choice changes.
import type { Shape } from '../../../lib/api/types'
import type { Mapping } from './fileReader.svelte'

type Read = Pick<Shape<'ImportOut'>, 'columns' | 'headings' | 'fields' | 'rows'>

export interface Column {
  sheet: string
  at: string
  heading: string
  /** The field it is read as; "" where nothing is taken from it. */
  field: string
}

/** Every column that has a heading, in the order of the file. */
export function columns({ columns: recognisedColumns, headings }: Read): Column[] {
  return headings.map(({ sheet, column, heading }) => ({
    sheet,
    at: column,
    heading,
    field:
      recognisedColumns.find(
        (candidate) =>
          candidate.sheet === sheet && candidate.column === column && candidate.heading === heading,
      )?.field ?? '',
  }))
}

export interface Known {
  sheet: string
  columns: { at: string; words: string }[]
}

/** "A = part number", table by table: a sheet may hold several, one under the other. */
export function recognised(read: Read): Known[] {
  const tables: Known[] = []
  for (const { sheet, at, field } of columns(read)) {
    const last = tables.at(-1)
    const again = last?.sheet === sheet && last.columns.some((column) => column.at === at)
    if (!last || last.sheet !== sheet || again) tables.push({ sheet, columns: [] })
    if (field) tables.at(-1)?.columns.push({ at, words: words(read, field) })
  }
  return tables.filter((table) => table.columns.length)
}

/** A field as people call it; an attribute or a capacity that the file itself names goes by that name. */
export function words({ fields }: Pick<Read, 'fields'>, field: string): string {
  return fields.find((candidate) => candidate.field === field)?.words ?? field.replace(/^.*:/, '')
}

/** Fields that no column holds though they must be somewhere; once rows were read, none can be missing. */
export function missing(read: Read): string[] {
  if (read.rows) return []
  const presentFields = new Set(read.columns.map((column) => column.field))
  return read.fields
    .filter((field) => field.required && !presentFields.has(field.field))
    .map((field) => field.words)
}

/** `chosen` with `field` for column `n`: another column of that sheet that had it is left with nothing. */
export function choose(
  shownColumns: readonly Column[],
  chosen: readonly string[],
  n: number,
  field: string,
): string[] {
  return chosen.map((had, i) => {
    if (i === n) return field
    return field && had === field && shownColumns[i]?.sheet === shownColumns[n]?.sheet ? '' : had
  })
}

// Fields that the heading itself completes: a column "Sunroof" read as an attribute is the attribute "sunroof".
const OPEN = new Set(['attribute', 'capacity'])

/** The mapping to send: the one before it, with what was chosen otherwise. Nothing changed is null. */
export function changed(
  shownColumns: readonly Column[],
  chosen: readonly string[],
  before: Mapping,
): Mapping | null {
  const next = { ...before }
  let moved = false
  for (const [n, { heading, field: had }] of shownColumns.entries()) {
    const field = chosen[n] ?? had
    if (!field || field === had) continue
    give(next, OPEN.has(field) ? `${field}:${heading.toLowerCase()}` : field, heading)
    moved = true
  }
  return moved ? next : null
}

/** The mapping of headings that somebody wrote, where the file shows none; null if nothing is written. */
export function written(texts: Mapping, before: Mapping): Mapping | null {
  const headings = Object.entries(texts).filter(([, heading]) => heading.trim())
  if (!headings.length) return null
  const next = { ...before }
  for (const [field, heading] of headings) give(next, field, heading.trim())
  return next
}

function give(mapping: Mapping, field: string, heading: string): void {
  for (const [other, has] of Object.entries(mapping)) if (has === heading) delete mapping[other]
  mapping[field] = heading
}
