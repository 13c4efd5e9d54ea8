import { leave, tell, toasts } from '../../lib/toasts.svelte'
import type { Row } from './sheet.svelte'

export const FILTERS = ['all', 'left', 'differences'] as const
export type Filter = (typeof FILTERS)[number]

/** The rows that a filter shows, or null for all. */
export function show(filter: Filter, rows: readonly Row[]): ReadonlySet<Row> | null {
  if (filter === 'all') return null
  return new Set(rows.filter((row) => (filter === 'left' ? !row.settled : row.differs)))
}

/** Says what was saved, one thing at a time, with a way back. */
export class Saying {
  private last = 0

  constructor(private undo: (ids: string[]) => void) {}

  say(words: string, ids: string[]): void {
    leave(this.last, null)
    tell(words, ids.length ? () => this.undo(ids) : undefined)
    this.last = toasts.at(-1)?.id ?? 0
  }
}
