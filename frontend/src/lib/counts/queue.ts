// The counts of this phone that are not yet known to be in the server's log. They survive everything but a wiped
// phone; `log.ts` takes an event out when the pull brings it back, `send.ts` moves a refused one to the drawer.
import { KNOWN_VERSION } from '../../calc/counting'
import { db, type Kept } from '../device/database'

/** One observation of a line by a person. `target` is the event that an undo takes back. */
export interface Draft {
  line: string
  kind: 'set' | 'add' | 'undo' | 'note'
  total?: number
  damaged?: number
  target?: string
  how?: 'counted' | 'seen' | 'sealed' | 'weighed'
  note?: { what: string }
}

/** Whose count it is, and of which list. `author` is the member, `shop` the slug. */
export interface Whose {
  shop: string
  list: string
  author: string
}

/** The state of the log that a row or pad showed when the person began: its epoch and the last place pulled. */
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
 * Writes the drafts as events, in order, and answers when they are safe on this phone. The device's name is made
 * with its store: a wiped store gets a new one. Its numbers are given in the same transaction.
 */
export async function keep(whose: Whose, drafts: readonly Draft[], screen: Screen): Promise<Kept[]> {
  const tx = (await db()).transaction(['device', 'queue'], 'readwrite', STRICT)
  const device = ((await tx.objectStore('device').get(COUNTER)) as Device | undefined) ?? newDevice()
  const made_at = new Date().toISOString()
  const entries = drafts.map((draft, at) =>
    asKept(whose, draft, { device: device.id, n: device.n + at + 1, made_at, ...screen }),
  )
  for (const entry of entries) void tx.objectStore('queue').add(entry)
  void tx.objectStore('device').put({ ...device, n: device.n + entries.length }, COUNTER)
  await tx.done
  return entries
}

const newDevice = (): Device => ({ id: crypto.randomUUID(), n: 0 })

/** The name of this phone's store; empty while nothing was ever kept in it. */
export async function deviceName(): Promise<string> {
  return ((await (await db()).get('device', COUNTER)) as Device | undefined)?.id ?? ''
}

type Stamp = Screen & { device: string; n: number; made_at: string }

function asKept(whose: Whose, draft: Draft, stamp: Stamp): Kept {
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

/** Every event that waits, in the order it was made; of one list, or of all. */
export async function waiting(list?: string): Promise<Kept[]> {
  const entries = list
    ? await (await db()).getAllFromIndex('queue', 'list', list)
    : await (await db()).getAll('queue')
  return entries.sort((first, other) => first.n - other.n)
}

/** Every event that the server refused, with its reason. */
export async function refused(): Promise<Kept[]> {
  return (await (await db()).getAll('drawer')).sort((first, other) => first.n - other.n)
}

/** Moves refused events out of the queue to where a person sees them: in one step, so that none is ever nowhere. */
export async function putAside(events: readonly Kept[]): Promise<void> {
  const tx = (await db()).transaction(['queue', 'drawer'], 'readwrite', STRICT)
  for (const entry of events) {
    void tx.objectStore('drawer').put(entry)
    void tx.objectStore('queue').delete(entry.id)
  }
  await tx.done
}

/** Takes one out of the drawer, because a person said that it is settled. */
export async function settle(id: string): Promise<void> {
  await (await db()).delete('drawer', id)
}
