// Lays out the picture of a promised date: columns of days, bars of work and of waiting, marks. Lengths are pixels;
// the server sends the instants and the opening hours.
import type { Shape } from '../api/types'

export type Promised = Shape<'PromiseOut'>
type Day = Promised['days'][number]

export interface Span {
  x: number
  width: number
}
export interface Column extends Span {
  day: string
  open: boolean
}
interface Arrival {
  x: number
  number: number
  at: string
  titles: string[]
}
interface Picture {
  width: number
  columns: Column[]
  /**
   * Weeks begin on Mondays. A week is named if its name fits after the previous one; the first day is named if it
   * fits.
   */
  weeks: { x: number; day: string; monday: boolean; named: boolean }[]
  work: Span[]
  waits: Span[]
  arrivals: Arrival[]
  here: number
  ready: number
}

const DAY = { least: 9, most: 72 }
const CLOSED = 0.36 // times the width of an open day; nothing happens on a closed one
const LABEL = 78 // pixels of "Mon 30 Nov"

/** Returns the picture at a width in pixels, wider if the days would be too narrow; null without days. */
export function picture(promise: Promised, width: number): Picture | null {
  const { days } = promise
  if (!days.length) return null
  const columns = inColumns(days, width)
  const last = columns.at(-1) as Column
  const at = scale(days, columns)
  const spans = (pairs: (readonly [string, string])[]) => joined(pairs.map(([a, b]) => [at(a), at(b)]))
  const { schedule } = promise
  const work = spans(schedule.map(({ start, end }) => [start, end]))
  return {
    width: Math.max(last.x + last.width, Math.min(width, 1e4)),
    columns,
    weeks: weeks(columns, last.x + last.width),
    work: columns
      .filter(({ open }) => open)
      .flatMap((column) => work.flatMap((span) => within(span, column))),
    waits: spans(schedule.flatMap(({ end, until }) => (until ? [[end, until] as const] : []))),
    arrivals: arrivals(promise, at, columns),
    here: at(promise.since),
    ready: at(promise.ready.at),
  }
}

function inColumns(days: readonly Day[], width: number): Column[] {
  const weights = days.map(({ opens }) => (opens ? 1 : CLOSED))
  const all = weights.reduce((sum, weight) => sum + weight, 0)
  const unit = Math.min(DAY.most, Math.max(DAY.least, width / all))
  let x = 0
  return days.map(({ day, opens }, i) => {
    const column = { x, width: unit * (weights[i] as number), day, open: opens !== null }
    x += column.width
    return column
  })
}

/** Maps instants to x. Open hours fill their day's column; closed hours fill the space between two columns. */
function scale(days: readonly Day[], columns: readonly Column[]): (instant: string) => number {
  const fixed = days.flatMap(({ opens, closes }, i) => {
    const { x, width } = columns[i] as Column
    return opens && closes
      ? [
          [Date.parse(opens), x],
          [Date.parse(closes), x + width],
        ]
      : []
  }) as [number, number][]
  return (instant) => {
    const when = Date.parse(instant)
    const next = fixed.findIndex(([moment]) => moment >= when)
    if (next === 0) return (fixed[0] as [number, number])[1]
    if (next < 0) return fixed.at(-1)?.[1] ?? 0
    const [[from, left], [to, right]] = [fixed[next - 1], fixed[next]] as [[number, number], [number, number]]
    return left + ((right - left) * (when - from)) / (to - from || 1)
  }
}

/** Merges spans that touch. */
function joined(pairs: [number, number][]): Span[] {
  const merged: [number, number][] = []
  for (const [from, to] of pairs.toSorted((a, b) => a[0] - b[0])) {
    const before = merged.at(-1)
    if (before && from <= before[1] + 0.5) before[1] = Math.max(before[1], to)
    else merged.push([from, to])
  }
  return merged.map(([x, end]) => ({ x, width: end - x })).filter(({ width }) => width > 0)
}

/** Returns the piece of a span in a day's column, or nothing. */
function within(span: Span, column: Column): Span[] {
  const x = Math.max(span.x, column.x)
  const end = Math.min(span.x + span.width, column.x + column.width)
  return end - x > 0.01 ? [{ x, width: end - x }] : []
}

function weeks(columns: readonly Column[], end: number): Picture['weeks'] {
  const mondays = columns.filter(({ day }) => new Date(`${day}T12:00:00Z`).getUTCDay() === 1)
  const first = columns[0] as Column
  const starts = mondays[0] && mondays[0].x < LABEL ? mondays : [first, ...mondays]
  let free = 0
  return [...new Set(starts)].map(({ x, day }) => {
    const named = x >= free && x + LABEL <= end
    if (named) free = x + LABEL
    return { x, day, monday: mondays.some((column) => column.day === day), named }
  })
}

/** Returns one mark for each day with arrivals, numbered by day. */
function arrivals(
  { coming }: Promised,
  at: (instant: string) => number,
  columns: readonly Column[],
): Arrival[] {
  const marks = new Map<Column, Arrival>()
  const dated = coming.flatMap(({ at: when, title }) => (when ? [{ when, title }] : []))
  for (const { when, title } of dated.toSorted((a, b) => Date.parse(a.when) - Date.parse(b.when))) {
    const x = at(when)
    const column =
      columns.find((candidate) => x <= candidate.x + candidate.width + 0.01) ?? (columns.at(-1) as Column)
    const mark = marks.get(column) ?? { x, number: marks.size + 1, at: when, titles: [] }
    if (!mark.titles.includes(title)) mark.titles.push(title)
    marks.set(column, mark)
  }
  return [...marks.values()]
}
