import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from './fakeNetwork'
import type { Method } from './types'

vi.stubGlobal('document', { cookie: 'csrftoken=abc', visibilityState: 'visible' })
const device = { onLine: true }
vi.stubGlobal('navigator', device)
type Reply = { status?: number; etag?: string; body?: unknown; after?: Promise<void> } | 'no signal'
const URL_OF_7 = '/api/v1/shops/fell/customers/7'
let replies: Reply[] = []
let requests: Request[] = []

answerRequests(async (request: Request) => {
  requests.push(request)
  const reply = replies.shift() ?? 'no signal'
  if (reply === 'no signal') throw new TypeError('failed to fetch')
  const { status = 200, etag, body, after } = reply
  await after
  return new Response(status === 304 ? null : JSON.stringify(body), {
    status,
    headers: { 'Content-Type': 'application/json', ...(etag ? { ETag: etag } : {}) },
  })
})

const { call, write } = await import('./client')
const { clearCopies, readCopy } = await import('../device/database')
const { online } = await import('../device/connection.svelte')
const { Resource } = await import('./resource.svelte')
const { session } = await import('../app/session.svelte')

function signedInAs(email: string) {
  session.state = {
    signed_in: true,
    user: { name: 'Ines Fallow', email },
    shops: [],
    pins: [],
    to_open: false,
    mail_is_sent: false,
  }
  session.enter('fell')
}

const quote = () => new Resource<{ total: string }>('customers/{id}')

beforeEach(async () => {
  replies = []
  requests = []
  signedInAs('ines@fell.test')
  for (const user of ['ines@fell.test', 'oda@fell.test']) await clearCopies(user)
})

test('it keeps the server’s answer, and asks next time whether it still holds', async () => {
  replies = [{ etag: '"3.a"', body: { total: '10.00' } }, { status: 304 }]
  await quote().open({ at: { id: '7' } })
  const again = quote()
  await again.open({ at: { id: '7' } })
  expect(again.data).toEqual({ total: '10.00' })
  expect(again.fresh).toBe(true)
  expect(requests[1]?.headers.get('If-None-Match')).toBe('"3.a"')
})

test('without signal it shows the copy and says that it is one', async () => {
  replies = [{ etag: '"3.a"', body: { total: '10.00' } }, 'no signal']
  await quote().open({ at: { id: '7' } })
  const again = quote()
  await again.open({ at: { id: '7' } })
  expect(again.data).toEqual({ total: '10.00' })
  expect(again.fresh).toBe(false)
  expect(again.problem?.status).toBe(0)
  expect(online.up).toBe(false)
})

test('one person never sees the copies of another, and signing out clears only one’s own', async () => {
  replies = [{ body: { total: '10.00' } }, 'no signal', { body: { total: '20.00' } }, 'no signal']
  await quote().open({ at: { id: '7' } })
  signedInAs('oda@fell.test')
  const before = quote()
  await before.open({ at: { id: '7' } })
  expect(before.data).toBeUndefined()
  await quote().open({ at: { id: '7' } })
  await clearCopies('ines@fell.test')
  expect(await readCopy('ines@fell.test', URL_OF_7)).toBeUndefined()
  const hers = quote()
  await hers.open({ at: { id: '7' } })
  expect(hers.data).toEqual({ total: '20.00' })
})

test('of two reads the later one counts, whichever answers first', async () => {
  const draft = quote()
  replies = [{ etag: '"1.a"', body: { total: '10.00' } }]
  await draft.open({ at: { id: '7' } })
  let slow: () => void = () => {}
  const answered = new Promise<void>((resolve) => {
    slow = resolve
  })
  replies = [
    { etag: '"1.b"', body: { total: '10.50' }, after: answered },
    { etag: '"2.c"', body: { total: '12.00' } },
  ]
  const first = draft.refresh()
  await draft.refresh()
  slow()
  await first
  expect(draft.data).toEqual({ total: '12.00' })
  expect(draft.etag).toBe('"2.c"')
  expect(draft.reading).toBe(false)
})

test('a read sent before a change does not bring back what the change replaced', async () => {
  const account = quote()
  replies = [{ etag: '"1.a"', body: { total: '10.00' } }]
  await account.open({ at: { id: '7' } })
  const release: (() => void)[] = []
  const waiting = () => new Promise<void>((done) => release.push(done))
  replies = [
    { etag: '"1.a"', body: { total: '10.00' }, after: waiting() },
    { etag: '"3.a"', body: { total: '14.00' }, after: waiting() },
  ]
  const before = account.refresh()
  account.replace({ total: '12.00' }, '"2.a"')
  release[0]?.()
  await before
  expect(account.data).toEqual({ total: '12.00' })
  release[1]?.()
  await vi.waitFor(() => expect(account.data).toEqual({ total: '14.00' }))
  expect(account.reading).toBe(false)
})

test('a slow answer about another address is not shown at this one', async () => {
  const release: (() => void)[] = []
  const waiting = () => new Promise<void>((done) => release.push(done))
  replies = [
    { body: { total: '10.00' }, after: waiting() },
    { body: { total: '20.00' }, after: waiting() },
  ]
  const draft = quote()
  const first = draft.open({ at: { id: '7' } })
  await vi.waitFor(() => expect(requests).toHaveLength(1))
  const second = draft.open({ at: { id: '8' } })
  await vi.waitFor(() => expect(requests).toHaveLength(2))
  release[0]?.()
  await first
  expect(draft.data).toBeUndefined()
  release[1]?.()
  await second
  expect(draft.data).toEqual({ total: '20.00' })
})

test('a late copy does not replace the server’s answer', async () => {
  replies = [{ body: { total: '10.00' } }]
  await quote().open({ at: { id: '7' } })
  replies = [{ body: { total: '12.00' } }, 'no signal']
  const again = quote()
  const opening = again.open({ at: { id: '7' } })
  await again.refresh()
  await opening
  expect(again.data).toEqual({ total: '12.00' })
})

test('changes go one after the other, each with the version that the one before it left', async () => {
  replies = [
    { etag: '"1.a"', body: { total: '10.00' } },
    { etag: '"2.b"', body: { total: '11.00' } },
    { etag: '"3.c"', body: { total: '12.00' } },
  ]
  const draft = quote()
  await draft.open({ at: { id: '7' } })
  const change = () =>
    draft.change((match) => write('patch', 'customers/{id}', { id: '7' }, {}, { match }) as never)
  await Promise.all([change(), change()])
  expect(requests.slice(1).map((request) => request.headers.get('If-Match'))).toEqual(['"1.a"', '"2.b"'])
  expect(requests[1]?.headers.get('X-CSRFToken')).toBe('abc')
  expect(draft.data).toEqual({ total: '12.00' })
  expect(draft.computing).toBe(false)
})

test('when somebody else was faster, the newest is read and the problem says so', async () => {
  replies = [
    { etag: '"1.a"', body: { total: '10.00' } },
    { status: 412, body: { type: '/problems/changed-meanwhile', title: 'x', status: 412, detail: 'y' } },
    { etag: '"2.b"', body: { total: '15.00' } },
  ]
  const draft = quote()
  await draft.open({ at: { id: '7' } })
  const answer = await draft.change(
    (match) => write('patch', 'customers/{id}', { id: '7' }, {}, { match }) as never,
  )
  expect(answer.ok).toBe(false)
  expect(draft.data).toEqual({ total: '15.00' })
  expect(draft.problem?.title).toBe('Somebody else changed this')
})

test('a refused sign-in asks again and keeps what is on the screen', async () => {
  replies = [{ body: { total: '10.00' } }, { status: 401, body: { title: 'Sign in first', status: 401 } }]
  const draft = quote()
  await draft.open({ at: { id: '7' } })
  await draft.refresh()
  await vi.waitFor(() => expect(session.ended).toBe(true))
  expect(draft.data).toEqual({ total: '10.00' })
})

test('the same change after no answer is the same command; another change is another', async () => {
  const send = (name: string) => write('post', 'customers', {}, { name, phone: '', email: '', address: '' })
  replies = ['no signal', 'no signal', { status: 201, body: {} }, { status: 201, body: {} }]
  for (const name of ['Maren', 'Ferran', 'Maren', 'Maren']) await send(name)
  const ids = requests.map((request) => request.headers.get('Idempotency-Key'))
  expect(ids[2]).toBe(ids[0])
  expect(new Set(ids).size).toBe(3)
})

test('a change that throws, at once or later, holds up no later one', async () => {
  replies = [{ etag: '"1.a"', body: { total: '10.00' } }]
  const draft = quote()
  await draft.open({ at: { id: '7' } })
  const done = { ok: true as const, status: 200, data: { total: '11.00' }, etag: '"2.b"', next: null }
  const atOnce = draft.change(() => {
    throw new Error('at once')
  })
  const later = draft.change(async () => Promise.reject(new Error('later')))
  const good = draft.change(async () => done)
  await expect(atOnce).rejects.toThrow('at once')
  await expect(later).rejects.toThrow('later')
  expect(await good).toEqual(done)
  expect([draft.data, draft.computing]).toEqual([{ total: '11.00' }, false])
  const last = draft.change(async () => Promise.reject(new Error('the last')))
  await expect(last).rejects.toThrow('the last')
  expect(draft.computing).toBe(false)
})

test('once the server has answered, the same change is a new command', async () => {
  const send = () => write('post', 'customers/{id}/notes' as never, { id: '7' } as never, {} as never)
  const reread = async (id: string, reply: Reply) => {
    replies = ['no signal', reply, { status: 201, body: {} }]
    await send()
    await quote().open({ at: { id } })
    await send()
    return requests.splice(0).flatMap((request) => request.headers.get('Idempotency-Key') ?? [])
  }
  const sentIds = async (id: string, reply: Reply) => new Set(await reread(id, reply)).size
  expect(await sentIds('8', { body: {} })).toBe(1)
  expect(await sentIds('7', 'no signal')).toBe(1)
  expect(await sentIds('7', { body: {} })).toBe(2)
  expect(await sentIds('7', { status: 304 })).toBe(2)
})

test.each<[Method, string]>([
  ['post', 'We do not know whether it arrived. Try again: it is counted only once.'],
  ['patch', 'We do not know whether it arrived. Read what is here again before you repeat the change.'],
  ['get', 'Try again with signal.'],
])('without an answer, %s says what is known', async (method, says) => {
  const answer = await call({ method, path: '/api/v1/shops/{slug}/customers/{id}', at: { id: '7' } })
  expect(!answer.ok && answer.problem.detail).toBe(says)
})

test('a device without a network knows that nothing was sent', async () => {
  device.onLine = false
  const answer = await call({ method: 'post', path: '/api/v1/shops/{slug}/customers' })
  device.onLine = true
  expect(!answer.ok && answer.problem.detail).toBe('Nothing was sent. Try again with signal.')
})
