// The queue (outbox) of this phone's counts that the server's log may not have yet. It survives everything but a
// wiped phone. `log.ts` removes an event once a pull brings it back; `send.ts` moves a refused one to the drawer.
import { KNOWN_VERSION } from '../../calc/counting'
import { db, type QueuedCount } from '../device/database'

/** One observation of a line by a person. `target` is the event that an undo cancels. */
export interface Draft {
  line: string
  kind: 'set' | 'add' | 'undo' | 'note'
  total?: number
  damaged?: number
  target?: string
  how?: 'counted' | 'seen' | 'sealed' | 'weighed'
  note?: { what: string }
}

/** The owner of a count and its list. `author` is the member, `shop` the slug. */
export interface LogOwner {
  shop: string
  list: string
  author: string
}

/** The state of the log on the row or pad when the person began: its epoch and the last log number pulled. */
export interface Screen {
  epoch: number
  seen: number
}

interface Device {
  id: string
  n: number
}

const STRICT = { durability: 'strict' } as const
const COUNTER = 'counter'

/**
 * Queues the drafts as events, in order. Resolves once they are stored on this phone. The device id is made with its
 * store, so a wiped store gets a new one; the numbers `n` are given in the same transaction.
 */
export async function keep(
  whose: LogOwner,
  drafts: readonly Draft[],
  screen: Screen,
): Promise<QueuedCount[]> {
  const tx = (await db()).transaction(['device', 'queue'], 'readwrite', STRICT)
  const device = ((await tx.objectStore('device').get(COUNTER)) as Device | undefined) ?? newDevice()
  const made_at = new Date().toISOString()
  const entries = drafts.map((draft, at) =>
    asQueued(whose, draft, { device: device.id, n: device.n + at + 1, made_at, ...screen }),
  )
  for (const entry of entries) void tx.objectStore('queue').add(entry)
  void tx.objectStore('device').put({ ...device, n: device.n + entries.length }, COUNTER)
  await tx.done
  return entries
}

const newDevice = (): Device => ({ id: crypto.randomUUID(), n: 0 })

/** Returns the id of this phone's store; empty while the store was never used. */
export async function deviceName(): Promise<string> {
  return ((await (await db()).get('device', COUNTER)) as Device | undefined)?.id ?? ''
}

type Stamp = Screen & { device: string; n: number; made_at: string }

function asQueued(whose: LogOwner, draft: Draft, stamp: Stamp): QueuedCount {
  const id = crypto.randomUUID()
  const { line, kind, total = null, damaged = null, target = null, ...details } = draft
  const { device, n, epoch, seen, made_at } = stamp
  const body = {
    v: KNOWN_VERSION,
    id,
    list: whose.list,
    line,
    kind,
    total,
    damaged,
    target,
    device,
    n,
    epoch,
    seen,
    made_at,
    ...details,
  }
  return { id, author: whose.author, shop: whose.shop, list: whose.list, device, n, body, made_at }
}

/** Returns the queued events in the order in which they were made, of one list or of all. */
export async function waiting(list?: string): Promise<QueuedCount[]> {
  const entries = list
    ? await (await db()).getAllFromIndex('queue', 'list', list)
    : await (await db()).getAll('queue')
  return entries.sort((first, other) => first.n - other.n)
}

/** Returns the events that the server refused, each with the reason. */
export async function refused(): Promise<QueuedCount[]> {
  return (await (await db()).getAll('drawer')).sort((first, other) => first.n - other.n)
}

/**
 * Moves refused events from the queue to the drawer, where a person sees them. One transaction, so that none is lost.
 */
export async function moveToDrawer(events: readonly QueuedCount[]): Promise<void> {
  const tx = (await db()).transaction(['queue', 'drawer'], 'readwrite', STRICT)
  for (const entry of events) {
    void tx.objectStore('drawer').put(entry)
    void tx.objectStore('queue').delete(entry.id)
  }
  await tx.done
}

/** Removes an event from the drawer after a person has settled it. */
export async function settle(id: string): Promise<void> {
  await (await db()).delete('drawer', id)
}
