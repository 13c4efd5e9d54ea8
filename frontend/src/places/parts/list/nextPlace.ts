// The lines still to count, and where the next of them lies.
import type { LineStanding } from '../../../calc/lineFigures'
import type { Groups } from './groups'

export interface Judged {
  readonly standing: LineStanding
}

/** A line that somebody has to count: nobody has, or its counts do not go together. */
export function waits({ standing }: Judged): boolean {
  return !standing.counted || standing.count_again
}

/** Whether nothing is left to count in a place. */
export function isDone(rows: readonly Judged[]): boolean {
  return rows.length > 0 && !rows.some(waits)
}

/** How many lines from the start of a place need nobody, up to the one in hand: they can be folded. */
export function leading(rows: readonly (Judged & { readonly on: boolean })[]): number {
  const first = rows.findIndex((row) => row.on || waits(row))
  return first < 0 ? rows.length : first
}

export const SHELF = 'shelf'

/** The places of the list in its order, each with its lines: bags, what lies loose, and the shelf. */
export function placesOf<R>({ kits, needs }: Groups<R>): { key: string; rows: readonly R[] }[] {
  const bags = kits.flatMap(({ cartons }) => cartons.flatMap(({ bags }) => bags))
  return needs.length ? [...bags, { key: SHELF, rows: needs }] : bags
}

/**
 * The next place after `at` that has something to count, from the top again after the last; `at` itself when it is the
 * only one, null when none is left.
 */
export function nextPlace<R extends Judged>(groups: Groups<R>, at: string | null): string | null {
  const places = placesOf(groups)
  const here = places.findIndex(({ key }) => key === at)
  const onwards = [...places.slice(here + 1), ...places.slice(0, here + 1)]
  return onwards.find(({ rows }) => rows.some(waits))?.key ?? null
}
