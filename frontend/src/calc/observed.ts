// What was said of the lines beside the counts, the same as kitting/calc/observed.py: notes, sealed bags, what
// came after closing.
import { type CountEvent, KNOWN_VERSION } from './counting'
import type { Flags } from './lineState'

// An event with what is never folded.
export interface Said extends CountEvent {
  how?: string | null
  note?: unknown
}

// {line: its flags}. A note taken back by who made it says nothing; the last word on a seal stands, so a bag
// that was accepted sealed and then opened and counted is no longer sealed.
export function flags(said: Iterable<Said>): Map<string, Required<Flags>> {
  const ordered = [...said].filter((each) => (each.v ?? KNOWN_VERSION) === KNOWN_VERSION).sort(byPlace)
  const undone = new Set(ordered.filter((each) => each.kind === 'undo' && !each.late).map(undoes))
  const found = new Map<string, Required<Flags>>()
  for (const each of ordered) {
    if (!SPEAKS.has(each.kind) || undone.has(`${each.id} ${each.author}`)) continue
    found.set(each.line, withOne(found.get(each.line) ?? NOTHING, each))
  }
  return found
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

// What a note says: a code such as wrong_part.
export function whatOf({ note }: Said): string {
  return note && typeof note === 'object' && 'what' in note ? String(note.what) : ''
}
