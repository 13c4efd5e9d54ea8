// Finds the lines still to count and the next place with one.
import type { LineStanding } from '../../../calc/lineFigures'
import type { Groups } from './groups'

export interface Countable {
  readonly standing: LineStanding
}

/** Returns whether somebody has to count a line: it is not counted, or its counts contradict each other. */
export function waits({ standing }: Countable): boolean {
  return !standing.counted || standing.count_again
}

/** Returns whether nothing is left to count in a place. */
export function isDone(rows: readonly Countable[]): boolean {
  return rows.length > 0 && !rows.some(waits)
}

/**
 * Returns the number of lines at the start of a place, before the one in hand, that need no count and can be folded.
 */
export function leading(rows: readonly (Countable & { readonly on: boolean })[]): number {
  const first = rows.findIndex((row) => row.on || waits(row))
  return first < 0 ? rows.length : first
}

export const SHELF = 'shelf'

/** Returns the places in list order, each with its lines: bags, loose parts, the shelf. */
export function placesOf<R>({ kits, needs }: Groups<R>): { key: string; rows: readonly R[] }[] {
  const bags = kits.flatMap(({ cartons }) => cartons.flatMap(({ bags }) => bags))
  return needs.length ? [...bags, { key: SHELF, rows: needs }] : bags
}

/**
 * Returns the next place after `at` with something to count, wrapping round at the end: `at` itself if it is the only
 * one, null if none is left.
 */
export function nextPlace<R extends Countable>(groups: Groups<R>, at: string | null): string | null {
  const places = placesOf(groups)
  const here = places.findIndex(({ key }) => key === at)
  const onwards = [...places.slice(here + 1), ...places.slice(0, here + 1)]
  return onwards.find(({ rows }) => rows.some(waits))?.key ?? null
}
