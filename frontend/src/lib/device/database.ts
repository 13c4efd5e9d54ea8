// The only module that names a store of the device's database (IndexedDB).
import { type DBSchema, type IDBPDatabase, openDB } from 'idb'

/** The server's last answer for an address, as one person saw it. */
interface Copy {
  user: string
  url: string
  etag: string | null
  data: unknown
  at: number
}

/**
 * A queued or refused count. `body` is the request; `author` is the member who made it, `shop` the slug of the shop,
 * `device` and `n` this phone's id and event number.
 */
export interface QueuedCount {
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

/** One row of a list's pulled log; `kept` is the event that this phone had sent for it. */
export interface LogRow {
  list: string
  seq: number
  event: unknown
  kept?: QueuedCount
}

interface Stores extends DBSchema {
  copies: { key: [string, string]; value: Copy }
  device: { key: string; value: unknown }
  queue: { key: string; value: QueuedCount; indexes: { author: string; list: string } }
  drawer: { key: string; value: QueuedCount; indexes: { author: string } }
  log: { key: [string, number]; value: LogRow }
}

let opened: Promise<IDBPDatabase<Stores>> | undefined

/**
 * Opens the database. Stores: copies (answers), device (settings), queue (events to send), drawer (refused events),
 * log (pulled events).
 */
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

/** Deletes the copies of one person's data. The queue and the drawer stay: they are work. */
export async function clearCopies(user: string): Promise<void> {
  const range = IDBKeyRange.bound([user], [user, []])
  await (await db()).delete('copies', range)
}

/**
 * Deletes the pulled logs but for rows with `kept`, which hold only this phone's own events: they are sent again if a
 * backup was restored on the server.
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
