// Polls the server for changes in the shop, one poller for the whole app. Screens register the kinds that they show
// and are told to read again.

import { session } from '../app/session.svelte'
import { ask } from './client'
import type { Shape } from './types'

export type Kind = Shape<'ChangeKind'>
type Changes = Shape<'ChangesOut'>

export const PAUSE = 2_000
const LONGEST = 60_000 // milliseconds between two polls while no answer comes (back-off)
const HUNG = 20_000
const QUARTER = 15 * 60_000 // a promised date and the expiry of a quote change with time alone

/**
 * The registration of a screen. `read` resolves to whether it succeeded; if not, it is repeated after the next poll.
 */
interface Reader {
  kinds: ReadonlySet<Kind>
  read: () => Promise<boolean>
  stale: boolean
  reading: boolean
}

const readers = new Set<Reader>()
let heard: { of: string; epoch: number; number: number; kinds: Map<Kind, number> } | undefined
let timer: ReturnType<typeof setTimeout> | undefined
let turns = 0
let failures = 0
let quarter = quarterNow()

/** Calls `read` whenever something of these kinds has changed in the shop. Returns a function that stops it. */
export function onChange(kinds: readonly Kind[], read: () => Promise<boolean>): () => void {
  const reader = { kinds: new Set(kinds), read, stale: false, reading: false }
  readers.add(reader)
  return () => readers.delete(reader)
}

/**
 * Starts the poller: every two seconds while the app is visible, at once when it becomes visible or the signal
 * returns. Returns a function that stops it.
 */
export function watchChanges(): () => void {
  const again = () => void poll()
  addEventListener('online', again)
  document.addEventListener('visibilitychange', again)
  const unwatch = $effect.root(() => {
    $effect(() => {
      if (session.signedIn && !session.ended && session.slug) again()
    })
  })
  again()
  return () => {
    removeEventListener('online', again)
    document.removeEventListener('visibilitychange', again)
    unwatch()
    turns++
    clearTimeout(timer)
    heard = undefined
  }
}

async function poll(): Promise<void> {
  clearTimeout(timer)
  const turn = ++turns
  const isAnswered = isWatched() ? await look(turn) : true
  if (turn !== turns) return
  failures = isAnswered ? 0 : failures + 1
  timer = setTimeout(poll, Math.min(LONGEST, PAUSE * 2 ** failures))
}

function isWatched(): boolean {
  return (
    document.visibilityState === 'visible' &&
    navigator.onLine !== false &&
    session.signedIn &&
    !session.ended &&
    session.slug !== ''
  )
}

/** Polls once. Returns whether the server answered. */
async function look(turn: number): Promise<boolean> {
  const of = `${session.user?.email} ${session.slug}`
  const query = heard?.of === of ? { since: heard.number, epoch: heard.epoch } : {}
  const answer = await inTime(ask({ method: 'get', path: '/api/v1/shops/{slug}/changes', query }))
  if (turn !== turns) return true
  if (!answer || (!answer.ok && answer.problem.status !== 304)) return false
  if (answer.ok) hear(of, answer.data)
  if (quarter !== quarterNow()) {
    quarter = quarterNow()
    for (const reader of readers) reader.stale = true
  }
  for (const reader of readers) void catchUp(reader)
  return true
}

/** Marks the readers of changed kinds as stale: all of them on the first answer and after a backup was restored. */
function hear(of: string, changes: Changes): void {
  const kinds = new Map(changes.kinds.map(({ kind, number }) => [kind, number]))
  const before =
    heard?.of === of && heard.epoch === changes.epoch && heard.number <= changes.number ? heard : undefined
  const moved = (kind: Kind) => kinds.get(kind) !== before?.kinds.get(kind)
  for (const reader of readers) if (!before || [...reader.kinds].some(moved)) reader.stale = true
  heard = { of, epoch: changes.epoch, number: changes.number, kinds }
}

async function catchUp(reader: Reader): Promise<void> {
  if (!reader.stale || reader.reading) return
  reader.reading = true
  reader.stale = false
  if (!(await reader.read().catch(() => false))) reader.stale = true
  reader.reading = false
}

function inTime<T>(answer: Promise<T>): Promise<T | undefined> {
  return Promise.race([answer, new Promise<undefined>((leave) => setTimeout(leave, HUNG))])
}

function quarterNow(): number {
  return Math.floor(Date.now() / QUARTER)
}
