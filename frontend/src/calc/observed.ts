// Derives the flags of lines from events that are not counts: notes, sealed bags and late events. Same rules as
// kitting/calc/observed.py.
import { type CountEvent, KNOWN_VERSION, knows } from './counting'
import type { Flags } from './lineState'

/** A count event with the fields that the fold ignores. */
export interface Observation extends CountEvent {
  how?: string | null
  note?: unknown
}

/**
 * Returns the flags by line; `expected` maps lines to pieces. An undone note counts for nothing.
 *
 * A live count of at least the expected pieces, none damaged, lifts a wrong-part note that its author had on the
 * screen: the right part has come. If that count is undone, the note returns.
 *
 * The last event about a seal wins, so a bag accepted sealed and later counted is no longer sealed.
 */
export function flags(
  events: Iterable<Observation>,
  expected: ReadonlyMap<string, number>,
): Map<string, Required<Flags>> {
  const live = liveOf(events)
  const full = live.filter((event) => isFull(event, expected))
  const flagsOfLines = new Map<string, Required<Flags>>()
  for (const event of live)
    if (!isLifted(event, full))
      flagsOfLines.set(event.line, withOne(flagsOfLines.get(event.line) ?? NOTHING, event))
  return flagsOfLines
}

/** Returns the events that their author has not undone, late ones included, in log order. */
function liveOf(events: Iterable<Observation>): Observation[] {
  const ordered = [...events].filter((event) => (event.v ?? KNOWN_VERSION) === KNOWN_VERSION).sort(byPlace)
  const undone = new Set(ordered.filter((event) => event.kind === 'undo' && !event.late).map(undoes))
  return ordered.filter((event) => SPEAKS.has(event.kind) && !undone.has(`${event.id} ${event.author}`))
}

/** Returns whether the event counts all expected pieces of its line, none damaged. */
function isFull(
  { kind, late, line, total, damaged }: Observation,
  expected: ReadonlyMap<string, number>,
): boolean {
  const pieces = expected.get(line)
  return kind === 'set' && !late && pieces !== undefined && !damaged && (total ?? 0) >= pieces
}

/** Returns whether the event is a wrong-part note, not late, that a full count of its line knows. */
function isLifted(event: Observation, full: readonly Observation[]): boolean {
  if (event.late || event.kind !== 'note' || noteCode(event) !== 'wrong_part') return false
  return full.some((count) => count.line === event.line && knows(count, event))
}

const SPEAKS = new Set(['set', 'add', 'note'])
const NOTHING: Required<Flags> = { wrong_part: 0, late: 0, sealed: false }

function undoes(event: Observation): string {
  return `${event.target} ${event.author}`
}

function byPlace(first: Observation, other: Observation): number {
  if (first.seq === null || other.seq === null) return Number(first.seq === null) - Number(other.seq === null)
  return first.seq - other.seq
}

function withOne(flags: Required<Flags>, event: Observation): Required<Flags> {
  if (event.late) return { ...flags, late: flags.late + 1 }
  const what = noteCode(event)
  const sealed = event.how === 'sealed' || (event.kind === 'note' && what === 'sealed')
  if (event.kind !== 'note') return { ...flags, sealed }
  if (what === 'wrong_part') return { ...flags, wrong_part: flags.wrong_part + 1 }
  return { ...flags, sealed: flags.sealed || sealed }
}

/** Returns the code of a note, such as wrong_part. */
export function noteCode({ note }: Observation): string {
  return note && typeof note === 'object' && 'what' in note ? String(note.what) : ''
}
