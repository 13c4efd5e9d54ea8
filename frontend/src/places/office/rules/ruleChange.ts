// Collects what was typed on the form of a section, and sends only the figures and tables that differ.
import type { RuleField, RuleRow } from './ruleFigures'

export interface Typed {
  figures: Record<string, string>
  tables: Record<string, RuleRow[]>
}

/** Returns the figures and rows as they stand, for a form to begin with. */
export function typedOf(fields: readonly RuleField[]): Typed {
  return {
    figures: Object.fromEntries(
      fields.filter(({ kind }) => kind !== 'table').map(({ path, value }) => [path, value]),
    ),
    tables: Object.fromEntries(
      fields
        .filter(({ kind }) => kind === 'table')
        .map(({ path, rows }) => [path, rows.map((row) => ({ ...row }))]),
    ),
  }
}

/** Returns the figures and tables that differ from those of the set. */
export function changedOf(fields: readonly RuleField[], typed: Typed): Typed {
  const before = typedOf(fields)
  const differs = (typed: unknown, before: unknown) => JSON.stringify(typed) !== JSON.stringify(before)
  return {
    figures: Object.fromEntries(
      Object.entries(typed.figures).filter(([path, text]) => differs(text, before.figures[path])),
    ),
    tables: Object.fromEntries(
      Object.entries(typed.tables).filter(([path, rows]) => differs(rows, before.tables[path])),
    ),
  }
}

/** Returns whether anything differs. */
export function isEmpty({ figures, tables }: Typed): boolean {
  return !Object.keys(figures).length && !Object.keys(tables).length
}
