// Decides when the queue is sent: after a count, when the app opens, when the signal or the person returns, and on a
// timer. Retries with back-off and never gives up.

import { session } from '../app/session.svelte'
import { alone } from '../device/alone'
import { online } from '../device/connection.svelte'
import { refused, waiting } from './queue'
import { openLogs, sendAll } from './send'

const TICK = 10_000
const LONGEST = 5 * 60_000
const LINGERS = 8_000 // shown as waiting only after this time, so that the strip does not flicker at each count

let channel: BroadcastChannel | undefined
let running: Promise<void> | undefined
let isRunAgainWanted = false
let failures = 0
let later: ReturnType<typeof setTimeout> | undefined

/** Starts the sender of this tab. */
export function watchCounts(): void {
  channel = new BroadcastChannel('counts')
  channel.onmessage = ({ data }) => void heard(String(data))
  addEventListener('online', flush)
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && flush())
  setInterval(() => void lookAround(), TICK)
  flush()
}

/** Tells the other tabs that the queue of a list has grown, and sends it. */
export function countedOn(list: string): void {
  channel?.postMessage(list)
  void recount()
  flush()
}

/** Sends the queue now. A call during a run makes it run again. */
export function flush(): Promise<void> {
  isRunAgainWanted = true
  running ??= rounds().finally(() => {
    running = undefined
  })
  return running
}

async function rounds(): Promise<void> {
  while (isRunAgainWanted) {
    isRunAgainWanted = false
    clearTimeout(later)
    const before = await waiting()
    online.waiting = before.length
    if (!before.length || !session.signedIn || session.ended) break
    const { problem, left } = await alone('counts', () => sendAll(members()))
    failures = problem || left ? failures + 1 : 0
    if (failures) later = setTimeout(flush, Math.min(LONGEST, 1000 * 2 ** failures))
    for (const list of new Set(before.map((entry) => entry.list))) channel?.postMessage(list)
  }
  await recount()
}

/** Returns the members whose counts go out from this phone: this person, and who else has a PIN here. */
const members = () =>
  new Set(
    [...session.shops, ...session.people.flatMap(({ state }) => state.shops)].map((shop) => shop.member),
  )

async function heard(list: string): Promise<void> {
  await openLogs.get(list)?.open()
  await recount()
}

async function lookAround(): Promise<void> {
  if (await recount()) flush()
}

/** Updates the numbers of queued, long queued and refused counts. Returns the length of the queue. */
export async function recount(): Promise<number> {
  const [queue, drawer] = [await waiting(), await refused()]
  const now = Date.now()
  online.waiting = queue.length
  online.lingering = queue.filter(({ made_at }) => now - Date.parse(made_at) > LINGERS).length
  online.needsYou = drawer.length
  return queue.length
}
