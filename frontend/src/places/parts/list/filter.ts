import type { Figures } from '../../../calc/lineFigures'
import { leave, tell, toasts } from '../../../lib/app/toasts.svelte'
import type { Row } from './pullSheet.svelte'

export type Filter = 'all' | 'left' | 'differences' | 'again'

/** Returns the offered filters; "again" only if lines need a recount. */
export function filtersOf({ count_again }: Figures): Filter[] {
  return count_again ? ['all', 'left', 'differences', 'again'] : ['all', 'left', 'differences']
}

const KEEPS = {
  left: (row: Row) => !row.settled,
  differences: (row: Row) => row.differs,
  again: (row: Row) => row.standing.count_again,
}

/** Returns the rows of a filter, or null for all. */
export function show(filter: Filter, rows: readonly Row[]): ReadonlySet<Row> | null {
  if (filter === 'all') return null
  return new Set(rows.filter(KEEPS[filter]))
}

/** Shows a toast after each save, with Undo, and removes the previous one. */
export class SaveToasts {
  private last = 0
  private offered: readonly string[] = []

  constructor(private undo: (ids: string[]) => void) {}

  say(words: string, ids: string[]): void {
    leave(this.last, null)
    tell(words, ids.length ? () => this.undo(ids) : undefined)
    this.last = toasts.at(-1)?.id ?? 0
    this.offered = ids
  }

  /** Undoes an event elsewhere than in its toast, which goes: what it says saved is saved no more. */
  takeBack(id: string): void {
    if (this.offered.includes(id)) leave(this.last, null)
    this.undo([id])
  }
}
