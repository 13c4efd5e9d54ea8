// The one module that names a store of the phone's own database.
import { type DBSchema, type IDBPDatabase, openDB } from 'idb'

/** The server's last answer for an address, as one person saw it. */
export interface Copy {
  user: string
  url: string
  etag: string | null
  data: unknown
  at: number
}

/**
 * Something counted, waiting to be sent or refused. `body` is what goes out; `author` is the member who made it,
 * `shop` the slug of theirs, `device` and `n` this phone's name and its own counter.
 */
export interface Kept {
  id: string
  author: string
  shop: string
  list: string
  device: string
  n: number
  body: unknown
  made_at: string
  problem?: string
}

/** One place of a list's log as it was pulled; `kept` is what this phone had sent for it. */
export interface Logged {
  list: string
  seq: number
  event: unknown
  kept?: Kept
}

interface Stores extends DBSchema {
  copies: { key: [string, string]; value: Copy }
  device: { key: string; value: unknown }
  queue: { key: string; value: Kept; indexes: { author: string; list: string } }
  drawer: { key: string; value: Kept; indexes: { author: string } }
  log: { key: [string, number]; value: Logged }
}

let opened: Promise<IDBPDatabase<Stores>> | undefined

/** Opens the database: copies, device, queue (waiting to go out), drawer (needs a person), log (pulled events). */
export function db(): Promise<IDBPDatabase<Stores>> {
  opened ??= openDB<Stores>('kitwright', 1, {
    upgrade(base) {
      base.createObjectStore('copies', { keyPath: ['user', 'url'] })
      base.createObjectStore('device')
      const queue = base.createObjectStore('queue', { keyPath: 'id' })
      queue.createIndex('author', 'author')
      queue.createIndex('list', 'list')
      base.createObjectStore('drawer', { keyPath: 'id' }).createIndex('author', 'author')
      base.createObjectStore('log', { keyPath: ['list', 'seq'] })
    },
    blocking: (_from, _to, event) => (event.target as IDBDatabase).close(),
  })
  return opened
}

export async function readCopy(user: string, url: string): Promise<Copy | undefined> {
  return (await db()).get('copies', [user, url])
}

export async function keepCopy(copy: Copy): Promise<void> {
  await (await db()).put('copies', copy)
}

/** Forgets every copy of one person's data. The queue and the drawer stay: they are work. */
export async function clearCopies(user: string): Promise<void> {
  const range = IDBKeyRange.bound([user], [user, []])
  await (await db()).delete('copies', range)
}

/**
 * Forgets the pulled logs. Rows with `kept` stay, with only this phone's own event in them: after a backup was put back on the
 * server they are sent again.
 */
export async function clearLogs(): Promise<void> {
  const tx = (await db()).transaction('log', 'readwrite')
  for (let at = await tx.store.openCursor(); at; at = await at.continue())
    if (!at.value.kept) void at.delete()
  await tx.done
}

export async function remember(key: string, value: unknown): Promise<void> {
  await (await db()).put('device', value, key)
}

export async function recall<T>(key: string): Promise<T | undefined> {
  return (await (await db()).get('device', key)) as T | undefined
}
