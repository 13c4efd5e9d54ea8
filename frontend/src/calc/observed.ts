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
  said: Iterable<Said>,
  expected: ReadonlyMap<string, number>,
): Map<string, Required<Flags>> {
  const live = liveOf(said)
  const full = live.filter((each) => isFull(each, expected))
  const found = new Map<string, Required<Flags>>()
  for (const each of live)
    if (!isLifted(each, full)) found.set(each.line, withOne(found.get(each.line) ?? NOTHING, each))
  return found
}

// The events that their author has not undone, in the order of the log, with those that came after closing.
function liveOf(said: Iterable<Said>): Said[] {
  const ordered = [...said].filter((each) => (each.v ?? KNOWN_VERSION) === KNOWN_VERSION).sort(byPlace)
  const undone = new Set(ordered.filter((each) => each.kind === 'undo' && !each.late).map(undoes))
  return ordered.filter((each) => SPEAKS.has(each.kind) && !undone.has(`${each.id} ${each.author}`))
}

// Whether it is a count of all that is expected of its line, with none damaged.
function isFull({ kind, late, line, total, damaged }: Said, expected: ReadonlyMap<string, number>): boolean {
  const pieces = expected.get(line)
  return kind === 'set' && !late && pieces !== undefined && !damaged && (total ?? 0) >= pieces
}

// Whether it is a wrong-part note, in time, that one of the full counts of its line knows.
function isLifted(said: Said, full: readonly Said[]): boolean {
  if (said.late || said.kind !== 'note' || whatOf(said) !== 'wrong_part') return false
  return full.some((count) => count.line === said.line && knows(count, said))
}

const SPEAKS = new Set(['set', 'add', 'note'])
const NOTHING: Required<Flags> = { wrong_part: 0, late: 0, sealed: false }

function undoes(event: Said): string {
  return `${event.target} ${event.author}`
}

function byPlace(one: Said, other: Said): number {
  if (one.seq === null || other.seq === null) return Number(one.seq === null) - Number(other.seq === null)
  return one.seq - other.seq
}

function withOne(flags: Required<Flags>, said: Said): Required<Flags> {
  if (said.late) return { ...flags, late: flags.late + 1 }
  const what = whatOf(said)
  const sealed = said.how === 'sealed' || (said.kind === 'note' && what === 'sealed')
  if (said.kind !== 'note') return { ...flags, sealed }
  if (what === 'wrong_part') return { ...flags, wrong_part: flags.wrong_part + 1 }
  return { ...flags, sealed: flags.sealed || sealed }
}

// The code of a note, such as wrong_part.
export function whatOf({ note }: Said): string {
  return note && typeof note === 'object' && 'what' in note ? String(note.what) : ''
}
