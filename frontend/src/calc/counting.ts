// Folds the count events of a pull list to tallies. Same rules and worked cases as kitting/calc/counting.py
// (fixtures/vectors/counting.json). The result depends only on which event knew which others, never on a clock or the
// order of arrival.

export const KNOWN_VERSION = 1

/**
 * A count event. `total` and `damaged` are whole pieces, null where the kind has none. `n` numbers the device's
 * events. `seen` is the last log number pulled before the event (capped by the server); `seq` is the event's own log
 * number, null while queued.
 */
export interface CountEvent {
  id: string
  line: string
  kind: string
  total: number | null
  damaged: number | null
  target: string | null
  device: string
  n: number
  seen: number
  author: string
  seq: number | null
  late?: boolean
  v?: number
}

/**
 * `total` and `damaged` come from the largest candidate, `low` is the smallest total, `confirm` asks for a recount.
 */
export interface Tally {
  total: number
  damaged: number
  low: number
  confirm: boolean
}

type Numbers = readonly [total: number, damaged: number]

/** Returns whether `other` was on the screen when `event` was made. */
export function knows(event: CountEvent, other: CountEvent): boolean {
  return (event.device === other.device && other.n < event.n) || place(other) <= event.seen
}

/**
 * Returns the tally of each line with a live count. Ignores unknown kinds and versions, late events and undone
 * events.
 */
export function fold(events: Iterable<CountEvent>): Map<string, Tally> {
  const lines = new Map<string, CountEvent[]>()
  for (const event of live([...distinct(events).values()])) {
    const counted = lines.get(event.line)
    if (counted) counted.push(event)
    else lines.set(event.line, [event])
  }
  return new Map([...lines].map(([line, counted]) => [line, tallyOf(counted)]))
}

/** Returns the SHA-256, in lower-case hex, of the canonical JSON of {line: [total, damaged, low, confirm]}. */
export async function digest(tallies: ReadonlyMap<string, Tally>): Promise<string> {
  const bytes = new TextEncoder().encode(canonical(tallies))
  const hash = new Uint8Array(await crypto.subtle.digest('SHA-256', bytes))
  return Array.from(hash, (byte) => byte.toString(16).padStart(2, '0')).join('')
}

/**
 * Returns the canonical JSON. An object would put keys that look like numbers first, so the text is built by hand.
 */
export function canonical(tallies: ReadonlyMap<string, Tally>): string {
  const rows = [...tallies].sort(([first], [other]) => byCodePoint(first, other))
  const written = rows.map(
    ([line, tally]) =>
      `${JSON.stringify(line)}:${JSON.stringify([tally.total, tally.damaged, tally.low, tally.confirm])}`,
  )
  return `{${written.join(',')}}`
}

/** Compares by code point, like the server's sort by UTF-8 bytes; `<` compares the halves of surrogate pairs. */
function byCodePoint(first: string, other: string): number {
  const left = [...first]
  const right = [...other]
  for (let at = 0; at < left.length && at < right.length; at += 1) {
    const apart = (left[at]?.codePointAt(0) ?? 0) - (right[at]?.codePointAt(0) ?? 0)
    if (apart !== 0) return apart
  }
  return left.length - right.length
}

function place(event: CountEvent): number {
  return event.seq ?? Number.POSITIVE_INFINITY
}

/** Keeps one event an id: the copy with the lowest log number, late if any copy is late. */
function distinct(events: Iterable<CountEvent>): Map<string, CountEvent> {
  const standing = new Map<string, CountEvent>()
  for (const event of events) {
    const first = standing.get(event.id)
    if (!first) {
      standing.set(event.id, event)
      continue
    }
    const stands = place(event) < place(first) ? event : first
    standing.set(event.id, { ...stands, late: Boolean(event.late || first.late) })
  }
  return standing
}

function live(events: readonly CountEvent[]): CountEvent[] {
  const timely = events.filter((event) => !event.late && (event.v ?? KNOWN_VERSION) === KNOWN_VERSION)
  const undone = new Map<string, Set<string>>()
  for (const event of timely) {
    if (event.kind !== 'undo' || event.target === null) continue
    undone.set(event.target, (undone.get(event.target) ?? new Set()).add(event.author))
  }
  const counts = (event: CountEvent) => event.kind === 'set' || event.kind === 'add'
  return timely.filter((event) => counts(event) && !undone.get(event.id)?.has(event.author))
}

function tallyOf(events: readonly CountEvent[]): Tally {
  const sets = events.filter((event) => event.kind === 'set')
  const isKnown = knownBy(sets)
  const tops = sets.filter((event) => !isKnown(event))
  const adds = events.filter((event) => event.kind === 'add' && !isKnown(event))
  const candidates = candidatesOf(tops, adds)
  const certain =
    agree(tops) &&
    tops.every((top) => adds.every((add) => knows(add, top))) &&
    !strangers(adds) &&
    candidates.every(([total, damaged]) => damaged >= 0 && damaged <= total)
  const [total, damaged] = candidates.reduce((most, candidate) =>
    larger(candidate, most) ? candidate : most,
  )
  return { total, damaged, low: Math.min(...candidates.map(([least]) => least)), confirm: !certain }
}

/**
 * Returns a test of whether any other event of the group knows an event. It needs only the highest `n` of each device
 * and the two furthest pulls; two, so that an event does not count as known by itself.
 */
function knownBy(events: readonly CountEvent[]): (event: CountEvent) => boolean {
  const furthest = new Map<string, number>()
  let pulls: CountEvent[] = []
  for (const event of events) {
    furthest.set(event.device, Math.max(event.n, furthest.get(event.device) ?? event.n))
    pulls = [...pulls, event].sort((first, other) => other.seen - first.seen).slice(0, 2)
  }
  return (event) =>
    (furthest.get(event.device) ?? event.n) > event.n ||
    pulls.some((pull) => pull.id !== event.id && pull.seen >= place(event))
}

function agree(tops: readonly CountEvent[]): boolean {
  const [first] = tops.map(numbers)
  return first === undefined || tops.map(numbers).every((own) => own[0] === first[0] && own[1] === first[1])
}

/**
 * Returns the possible totals. Each top gives two: with the adds that know it, and with all adds. Without a top, all
 * adds start from 0.
 */
function candidatesOf(tops: readonly CountEvent[], adds: readonly CountEvent[]): Numbers[] {
  const everything = sum(adds)
  if (tops.length === 0) return [everything]
  return tops.flatMap((top) => [
    plus(numbers(top), sum(adds.filter((add) => knows(add, top)))),
    plus(numbers(top), everything),
  ])
}

function numbers(event: CountEvent): Numbers {
  return [event.total ?? 0, event.damaged ?? 0]
}

function sum(adds: readonly CountEvent[]): Numbers {
  return adds.map(numbers).reduce(plus, [0, 0])
}

function plus(first: Numbers, other: Numbers): Numbers {
  return [first[0] + other[0], first[1] + other[1]]
}

function larger(first: Numbers, other: Numbers): boolean {
  return first[0] > other[0] || (first[0] === other[0] && first[1] > other[1])
}

/** Returns whether two of the adds do not know each other. */
function strangers(adds: readonly CountEvent[]): boolean {
  return strangersOnOneDevice(adds) || strangersApart(adds)
}

/** Compares adds of one device. Only equal numbers `n` can be strangers, and a sound device never repeats one. */
function strangersOnOneDevice(adds: readonly CountEvent[]): boolean {
  const met = new Map<string, CountEvent[]>()
  return adds.some((add) => {
    const name = `${add.n} ${add.device}`
    const same = met.get(name) ?? []
    met.set(name, [...same, add])
    return same.some((other) => !knows(add, other) && !knows(other, add))
  })
}

/**
 * Returns whether two adds of different devices do not know each other. Each add is compared only with the latest in
 * the log among those that had not pulled it. That is enough: if that one is of the same device as the add, then it
 * and the add's stranger are strangers too, and are found nearer the end of the log.
 */
function strangersApart(adds: readonly CountEvent[]): boolean {
  const ordered = [...adds].sort((first, other) => first.seen - other.seen)
  const latest: CountEvent[] = []
  for (const add of ordered) {
    const before = latest.at(-1)
    latest.push(before && place(before) >= place(add) ? before : add)
  }
  return ordered.some((add) => {
    const other = latest[pulledBefore(ordered, place(add)) - 1]
    return other !== undefined && other.device !== add.device && place(other) > add.seen
  })
}

/** Returns how many events had pulled less than `limit` (binary search; `ordered` ascends by `seen`). */
function pulledBefore(ordered: readonly CountEvent[], limit: number): number {
  let low = 0
  let high = ordered.length
  while (low < high) {
    const middle = (low + high) >> 1
    if ((ordered[middle]?.seen ?? limit) < limit) low = middle + 1
    else high = middle
  }
  return low
}
