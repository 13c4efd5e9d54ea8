// Observations on lines that are not counts, the same as kitting/calc/observed.py: notes, sealed bags, what
// came after closing.
import { type CountEvent, KNOWN_VERSION, knows } from './counting'
import type { Flags } from './lineState'

// An event with what is never folded.
export interface Said extends CountEvent {
  how?: string | null
  note?: unknown
}

// {line: its flags}; `expected` are the pieces of each line. An undone note says nothing.
//
// A wrong-part note is lifted by a live count of at least what is expected, with none damaged, by somebody who had
// the note on the screen: the right part has come. Once that count is undone the note is back.
//
// The last word on a seal stands, so a bag that was accepted sealed and then opened and counted is no longer sealed.
export function flags(
  events: Iterable<Said>,
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

// The events that their author has not undone, in the order of the log, with those that came after closing.
function liveOf(events: Iterable<Said>): Said[] {
  const ordered = [...events].filter((event) => (event.v ?? KNOWN_VERSION) === KNOWN_VERSION).sort(byPlace)
  const undone = new Set(ordered.filter((event) => event.kind === 'undo' && !event.late).map(undoes))
  return ordered.filter((event) => SPEAKS.has(event.kind) && !undone.has(`${event.id} ${event.author}`))
}

// Whether it is a count of all that is expected of its line, with none damaged.
function isFull({ kind, late, line, total, damaged }: Said, expected: ReadonlyMap<string, number>): boolean {
  const pieces = expected.get(line)
  return kind === 'set' && !late && pieces !== undefined && !damaged && (total ?? 0) >= pieces
}

// Whether it is a wrong-part note, in time, that one of the full counts of its line knows.
function isLifted(event: Said, full: readonly Said[]): boolean {
  if (event.late || event.kind !== 'note' || whatOf(event) !== 'wrong_part') return false
  return full.some((count) => count.line === event.line && knows(count, event))
}

const SPEAKS = new Set(['set', 'add', 'note'])
const NOTHING: Required<Flags> = { wrong_part: 0, late: 0, sealed: false }

function undoes(event: Said): string {
  return `${event.target} ${event.author}`
}

function byPlace(first: Said, other: Said): number {
  if (first.seq === null || other.seq === null) return Number(first.seq === null) - Number(other.seq === null)
  return first.seq - other.seq
}

function withOne(flags: Required<Flags>, event: Said): Required<Flags> {
  if (event.late) return { ...flags, late: flags.late + 1 }
  const what = whatOf(event)
  const sealed = event.how === 'sealed' || (event.kind === 'note' && what === 'sealed')
  if (event.kind !== 'note') return { ...flags, sealed }
  if (what === 'wrong_part') return { ...flags, wrong_part: flags.wrong_part + 1 }
  return { ...flags, sealed: flags.sealed || sealed }
}

// The code of a note, such as wrong_part.
export function whatOf({ note }: Said): string {
  return note && typeof note === 'object' && 'what' in note ? String(note.what) : ''
}
