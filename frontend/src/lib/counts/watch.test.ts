import { beforeEach, expect, test, vi } from 'vitest'
import type { QueuedCount } from '../device/database'
import type { Outcome } from './send'

const queue = vi.hoisted(() => ({ waiting: vi.fn(), refused: vi.fn() }))
const sendAll = vi.hoisted(() => vi.fn())
const session = vi.hoisted(() => ({
  signedIn: true,
  ended: false,
  shops: [{ member: 'ines' }],
  people: [{ state: { shops: [{ member: 'bram' }] } }],
}))
vi.mock('./queue', () => queue)
vi.mock('./send', () => ({ sendAll, openLogs: new Map() }))
vi.mock('../app/session.svelte', () => ({ session }))
vi.stubGlobal('navigator', { onLine: true })
const { flush } = await import('./watch')
const { online } = await import('../device/connection.svelte')

const sent: Outcome = { left: 0, problem: null }
const failed: Outcome = { left: 1, problem: { type: '', title: '', status: 503, detail: '' } }
const entry = (id: string, at = Date.now()) =>
  ({ id, list: 'l', author: 'ines', made_at: new Date(at).toISOString() }) as QueuedCount

beforeEach(async () => {
  vi.useFakeTimers()
  vi.clearAllTimers()
  Object.assign(session, { signedIn: true, ended: false })
  queue.waiting.mockReset().mockResolvedValue([entry('a')])
  queue.refused.mockReset().mockResolvedValue([])
  sendAll.mockReset().mockResolvedValue(sent)
  await flush() // a success resets the back-off of the previous test
  sendAll.mockClear()
})

test('what waits goes out for this person and for whoever else has a PIN on this phone', async () => {
  await flush()
  expect(sendAll.mock.calls).toEqual([[new Set(['ines', 'bram'])]])
})

test.each([
  ['nobody is signed in', { signedIn: false }],
  ['the sign-in has ended', { ended: true }],
])('nothing goes out while %s', async (_, change) => {
  Object.assign(session, change)
  await flush()
  expect(sendAll).not.toHaveBeenCalled()
  expect(online.waiting).toBe(1)
})

test('what is counted while it sends goes out in the next round, and never two rounds at once', async () => {
  let answer: (outcome: Outcome) => void = () => {}
  sendAll.mockImplementationOnce(
    () =>
      new Promise<Outcome>((done) => {
        answer = done
      }),
  )
  const first = flush()
  await vi.waitFor(() => expect(sendAll).toHaveBeenCalledOnce())
  const second = flush()
  await vi.advanceTimersByTimeAsync(50)
  expect(sendAll).toHaveBeenCalledOnce()
  answer(sent)
  await Promise.all([first, second])
  expect(sendAll).toHaveBeenCalledTimes(2)
})

test('without an answer it is tried again, later each time, up to five minutes', async () => {
  const times: number[] = []
  const began = Date.now()
  sendAll.mockImplementation(async () => {
    times.push((Date.now() - began) / 1000)
    return failed
  })
  await flush()
  await vi.advanceTimersByTimeAsync(20 * 60_000)
  const gaps = times.slice(1).map((time, at) => time - (times[at] ?? 0))
  expect(gaps.slice(0, 10)).toEqual([2, 4, 8, 16, 32, 64, 128, 256, 300, 300])
})

test('it says how many wait, how many have waited for a while, and how many need a person', async () => {
  queue.waiting.mockResolvedValue([entry('a'), entry('b', Date.now() - 9_000)])
  queue.refused.mockResolvedValue([entry('c')])
  await flush()
  expect([online.waiting, online.lingering, online.needsYou]).toEqual([2, 1, 1])
})
