// Sends the queued events in order and pulls them back. Only one sender runs at a time, over all tabs.
import { ask, type Problem } from '../api/client'
import type { Shape } from '../api/types'
import type { QueuedCount } from '../device/database'
import { CountLog, EVENTS, type SendRequest } from './log'
import { moveToDrawer, waiting } from './queue'

const MOST = 200
const MOST_BYTES = 200 * 1024 // the server accepts 256 KiB

type Results = Shape<'ResultsOut'>['results']

/** The result of sending: the number of this person's events still queued, and the problem that stopped it. */
export interface Outcome {
  left: number
  problem: Problem | null
}

/** The logs on a screen of this tab. Their pull updates the screen. */
export const openLogs = new Map<string, CountLog>()

/** Sends the queued events of `authors` (member ids), list by list and each in the name of its author. */
export async function sendAll(authors: ReadonlySet<string>, reach: SendRequest = ask): Promise<Outcome> {
  const lists = new Map<string, QueuedCount[]>()
  for (const entry of await waiting())
    if (authors.has(entry.author)) {
      const key = `${entry.list} ${entry.author}`
      lists.set(key, [...(lists.get(key) ?? []), entry])
    }
  let problem: Problem | null = null
  for (const events of lists.values()) {
    problem = (await sendList(events, reach)) ?? problem
    if (problem && concernsAll(problem)) break
  }
  const left = (await waiting()).filter((entry) => authors.has(entry.author)).length
  return { left, problem }
}

/** Returns whether the problem (no signal, signed out, told to wait) would stop the other lists too. */
function concernsAll({ status, type }: Problem): boolean {
  return status !== 404 && status !== 413 && type !== '/problems/another-person'
}

async function sendList(events: QueuedCount[], reach: SendRequest): Promise<Problem | null> {
  const [first] = events
  if (!first) return null
  const problem = await upload(events, reach)
  if (problem) return problem
  const whose = { shop: first.shop, list: first.list, author: first.author }
  const log = openLogs.get(first.list) ?? new CountLog(whose, undefined, reach)
  if (!openLogs.has(first.list)) await log.open()
  return log.pull()
}

/** Sends events in batches. Removes from the queue only those that the server refused one by one. */
async function upload(events: QueuedCount[], reach: SendRequest): Promise<Problem | null> {
  let most = MOST
  let rest = events
  while (rest.length) {
    const batch = fitting(rest, most)
    const answer = await reach({
      method: 'post',
      path: EVENTS,
      at: { slug: batch[0]?.shop ?? '', id: batch[0]?.list ?? '' },
      body: { events: batch.map((entry) => entry.body) },
      headers: { 'X-Member': batch[0]?.author ?? '' }, // the person on this phone may change between two batches
    })
    if (!answer.ok) {
      if (answer.problem.status !== 413 || batch.length === 1) return answer.problem
      most = Math.max(1, Math.floor(batch.length / 2))
      continue
    }
    await drawer(batch, answer.data.results)
    rest = rest.slice(batch.length)
  }
  return null
}

/** Returns the first events that fit into one batch, at least one. */
function fitting(events: readonly QueuedCount[], most: number): QueuedCount[] {
  const batch: QueuedCount[] = []
  let bytes = 0
  for (const entry of events.slice(0, most)) {
    bytes += new TextEncoder().encode(JSON.stringify(entry.body)).length + 1
    if (batch.length && bytes > MOST_BYTES) break
    batch.push(entry)
  }
  return batch
}

async function drawer(batch: readonly QueuedCount[], results: Results): Promise<void> {
  const refused = batch.flatMap((entry, at) => {
    const result = results[at]
    if (result?.id !== entry.id || result.status !== 'rejected') return []
    return [{ ...entry, problem: result.problem ?? 'malformed' }]
  })
  if (refused.length) await moveToDrawer(refused)
}
