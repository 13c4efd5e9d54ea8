import 'fake-indexeddb/auto'
import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from './fakeNetwork'

const page = Object.assign(new EventTarget(), { cookie: '', visibilityState: 'visible' })
const device = { onLine: true }
vi.stubGlobal('document', page)
vi.stubGlobal('navigator', device)
const signal = new EventTarget()
vi.stubGlobal('addEventListener', signal.addEventListener.bind(signal))
vi.stubGlobal('removeEventListener', signal.removeEventListener.bind(signal))

type Reply = Record<string, number> | 'nothing new' | 'no signal' | 'broken' | 'hangs'
let replies: Reply[] = []
let epoch = 1
let urls: string[] = []

answerRequests(async (request: Request) => {
  urls.push(new URL(request.url).search)
  const reply = replies.shift() ?? 'nothing new'
  if (reply === 'no signal') throw new TypeError('failed to fetch')
  if (reply === 'hangs') return new Promise(() => {})
  if (reply === 'nothing new') return new Response(null, { status: 304 })
  if (reply === 'broken') return new Response('{}', { status: 502 })
  const kinds = Object.entries(reply).map(([kind, number]) => ({ kind, number }))
  const number = kinds.reduce((sum, kind) => sum + kind.number, 0)
  return new Response(JSON.stringify({ epoch, number, kinds }), {
    headers: { 'Content-Type': 'application/json' },
  })
})

const { onChange, PAUSE, watchChanges } = await import('./feed.svelte')
const { session } = await import('../app/session.svelte')

function signedIn(email: string, slug = 'fell') {
  session.state = {
    signed_in: true,
    user: { name: 'Ines Fallow', email },
    shops: [],
    pins: [],
    to_open: false,
    mail_is_sent: false,
  }
  session.ended = false
  session.enter(slug)
}

let leave: (() => void)[] = []
function reader(kinds: Parameters<typeof onChange>[0], read = async () => true) {
  const spy = vi.fn(read)
  leave.push(onChange(kinds, spy))
  return spy
}
/** Lets `n` polls pass. */
const polls = (n = 1) => vi.advanceTimersByTimeAsync(n * PAUSE)

async function watched(first: Reply = { jobs: 3, counts: 5 }) {
  replies = [first]
  leave.push(watchChanges())
  await vi.advanceTimersByTimeAsync(0)
}

beforeEach(() => {
  vi.useFakeTimers()
  vi.setSystemTime(new Date('2026-12-01T08:01:00Z'))
  replies = []
  urls = []
  epoch = 1
  device.onLine = true
  page.visibilityState = 'visible'
  signedIn('ines@fell.test')
})
afterEach(() => {
  for (const stop of leave) stop()
  leave = []
  vi.useRealTimers()
})

test('it asks at once and every two seconds, for what is new since the last answer', async () => {
  await watched()
  replies = [{ jobs: 4, counts: 5 }]
  await polls(2)
  expect(urls).toEqual(['', '?since=8&epoch=1', '?since=9&epoch=1'])
})

test('a screen reads again when one of its kinds has changed, and only then', async () => {
  await watched()
  const [jobs, counts] = [reader(['jobs', 'pull-lists']), reader(['counts'])]
  await polls()
  expect([jobs, counts].map((poll) => poll.mock.calls.length)).toEqual([0, 0])
  replies = [{ jobs: 3, counts: 5, 'pull-lists': 1 }]
  await polls()
  expect([jobs, counts].map((poll) => poll.mock.calls.length)).toEqual([1, 0])
  replies = [{ jobs: 3, counts: 6, 'pull-lists': 1 }]
  await polls()
  expect([jobs, counts].map((poll) => poll.mock.calls.length)).toEqual([1, 1])
})

test('a change is read within three seconds while somebody looks, with two seconds between asks', async () => {
  await watched()
  const counts = reader(['counts'])
  await vi.advanceTimersByTimeAsync(1_999)
  expect(urls).toHaveLength(1)
  replies = [{ jobs: 3, counts: 6 }] // somebody counts just after a request, at the latest just before the next
  await vi.advanceTimersByTimeAsync(1)
  expect(urls).toHaveLength(2)
  expect(counts).toHaveBeenCalledOnce()
  await vi.advanceTimersByTimeAsync(60_000)
  expect(urls).toHaveLength(32)
})

test('what was read before the first answer is read again: something may lie between', async () => {
  const jobs = reader(['jobs'])
  await watched()
  expect(jobs).toHaveBeenCalledOnce()
})

test.each([
  ['the page is hidden', () => Object.assign(page, { visibilityState: 'hidden' })],
  ['the device has no signal', () => Object.assign(device, { onLine: false })],
  ['the sign-in has ended', () => Object.assign(session, { ended: true })],
  [
    'nobody is signed in',
    () => Object.assign(session, { state: { signed_in: false, user: null, shops: [] } }),
  ],
])('it asks for nothing while %s', async (_, stop) => {
  await watched()
  stop()
  await polls(5)
  expect(urls).toHaveLength(1)
})

test('it asks at once when the person or the signal comes back', async () => {
  page.visibilityState = 'hidden'
  await watched()
  page.visibilityState = 'visible'
  page.dispatchEvent(new Event('visibilitychange'))
  await vi.advanceTimersByTimeAsync(0)
  expect(urls).toHaveLength(1)
  signal.dispatchEvent(new Event('online'))
  await vi.advanceTimersByTimeAsync(0)
  expect(urls).toHaveLength(2)
  await polls()
  expect(urls).toHaveLength(3)
})

test('without an answer it waits longer each time, up to a minute', async () => {
  await watched()
  replies = Array.from({ length: 12 }, (_, n) => (n % 2 ? 'no signal' : 'broken'))
  const times: number[] = []
  for (let second = 0; second < 260; second += 2) {
    const before = urls.length
    await vi.advanceTimersByTimeAsync(2000)
    if (urls.length > before) times.push(second + 2)
  }
  const gaps = times.slice(1).map((time, at) => time - (times[at] ?? 0))
  expect(gaps.slice(0, 6)).toEqual([4, 8, 16, 32, 60, 60])
})

test('after an answer it asks every two seconds again', async () => {
  await watched()
  replies = ['broken', 'nothing new', 'nothing new']
  await polls(1)
  await polls(2)
  expect(urls).toHaveLength(3)
  await polls(1)
  expect(urls).toHaveLength(4)
})

test('a request that gets no answer is given up', async () => {
  await watched()
  replies = ['hangs']
  await polls()
  await vi.advanceTimersByTimeAsync(20_000)
  await polls(2)
  expect(urls).toHaveLength(3)
})

test('a read that got no answer is tried again after the next poll', async () => {
  await watched()
  const answers = [false, true]
  const jobs = reader(['jobs'], async () => answers.shift() ?? true)
  replies = [{ jobs: 4, counts: 5 }]
  await polls(4)
  expect(jobs).toHaveBeenCalledTimes(2)
})

test('a change that comes while a screen reads is read afterwards, and never two reads at once', async () => {
  await watched()
  let done: (ok: boolean) => void = () => {}
  const reading = () =>
    new Promise<boolean>((resolve) => {
      done = resolve
    })
  const jobs = reader(['jobs'], reading)
  replies = [
    { jobs: 4, counts: 5 },
    { jobs: 5, counts: 5 },
  ]
  await polls(2)
  expect(jobs).toHaveBeenCalledOnce()
  done(true)
  await polls()
  expect(jobs).toHaveBeenCalledTimes(2)
})

test.each([
  ['the number is lower than before', () => [{ jobs: 2, counts: 5 }, 1] as const],
  ['the epoch is another', () => [{ jobs: 3, counts: 5 }, 2] as const],
])('everything is read again after a backup was put back: %s', async (_, restored) => {
  await watched()
  const quotes = reader(['quotes'])
  const [reply, now] = restored()
  replies = [reply]
  epoch = now
  await polls(2)
  expect(quotes).toHaveBeenCalledOnce()
  expect(urls.at(-1)).toBe(`?since=${reply.jobs + reply.counts}&epoch=${now}`)
})

test('another person and another shop begin from the start', async () => {
  await watched()
  signedIn('oda@fell.test')
  replies = [{ jobs: 3 }]
  await polls()
  signedIn('oda@fell.test', 'saltmarsh')
  await polls()
  expect(urls.slice(1)).toEqual(['', ''])
})

test('what the clock alone moves is read again each quarter of an hour', async () => {
  await watched()
  const quotes = reader(['quotes'])
  await vi.advanceTimersByTimeAsync(13 * 60_000)
  expect(quotes).not.toHaveBeenCalled()
  await vi.advanceTimersByTimeAsync(10 * 60_000)
  expect(quotes).toHaveBeenCalledOnce()
})

test('a screen that was left reads nothing', async () => {
  await watched()
  const jobs = reader(['jobs'])
  leave.pop()?.()
  replies = [{ jobs: 4, counts: 5 }]
  await polls()
  expect(jobs).not.toHaveBeenCalled()
})
