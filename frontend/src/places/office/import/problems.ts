// The way from one open problem of a file to the next.

/** The key that leads to it, as KeyboardEvent.key names it. */
export const NEXT_KEY = 'F8'

interface Before<E> {
  place: number
  element: E
}

/** The facts of an element of the page that decide which problem is next. */
export interface Problem {
  isConnected: boolean
  contains: (other: Node | null) => boolean
}

/** Returns the position of the next problem: behind the one with the focus, else behind the last one. A problem that
 * was mended has left the page, and the next one stands at its position. After the last the first follows. */
export function following<E extends Problem>(
  problems: readonly E[],
  before: Before<E> | null,
  focus: Element | null,
): number {
  if (!problems.length) return -1
  const focused = focus ? problems.findIndex((problem) => problem.contains(focus)) : -1
  if (focused >= 0) return (focused + 1) % problems.length
  if (!before) return 0
  const last = problems.indexOf(before.element)
  return (last >= 0 ? last + 1 : before.place) % problems.length
}
