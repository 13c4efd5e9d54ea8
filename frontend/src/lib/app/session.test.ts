import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from '../api/fakeNetwork'

vi.stubGlobal('document', { cookie: 'csrftoken=abc', visibilityState: 'visible' })

/** A fake server that knows who is signed in, behind a connection that may be down. */
const server = {
  signal: true,
  signedIn: true,
  ended: false,
  stale: false,
  refusing: 0,
  asked: [] as string[],
  held: undefined as Promise<void> | undefined,
}
const bram = { name: 'Bram Solder', email: 'bram@fell.test' }
const sessionState = () => ({ signed_in: server.signedIn, user: server.signedIn ? bram : null, shops: [] })

answerRequests(async ({ method, url }: Request) => {
  server.asked.push(method)
  if (!server.signal) throw new TypeError('failed to fetch')
  if (server.ended || (server.stale && !url.endsWith('/session')))
    return new Response(JSON.stringify({ title: 'Sign in', status: 401 }), { status: 401 })
  if (method === 'DELETE' && server.refusing-- > 0)
    return new Response(JSON.stringify({ title: 'No token', status: 403 }), { status: 403 })
  if (method === 'DELETE') server.signedIn = false
  if (method === 'POST') server.signedIn = true
  const status = method === 'DELETE' ? 204 : 200
  const body = status === 204 ? null : JSON.stringify(sessionState())
  if (method === 'GET') await server.held
  return new Response(body, {
    status,
    headers: { 'Content-Type': 'application/json' },
  })
})

const { db, keepCopy, readCopy } = await import('../device/database')
const { Session } = await import('./session.svelte')

/** Opens the app on this device with only the kept data. */
async function opened() {
  const session = new Session()
  const states: boolean[] = []
  const stop = setInterval(() => states.push(session.signedIn), 0)
  await session.open()
  clearInterval(stop)
  return { session, states }
}

async function signedOutWithoutSignal() {
  const { session } = await opened()
  server.signal = false
  await session.signOut()
  server.asked = []
  return session
}

beforeEach(async () => {
  Object.assign(server, {
    signal: true,
    signedIn: true,
    ended: false,
    refusing: 0,
    asked: [],
    held: undefined,
  })
  const base = await db()
  for (const store of ['copies', 'device', 'queue', 'log'] as const) await base.clear(store)
})

test('with signal, signing out ends the session on the server', async () => {
  const { session } = await opened()
  await session.signOut()
  expect([session.signedIn, session.owed, server.signedIn]).toEqual([false, false, false])
})

test('without signal it is owed: the device shows nobody, and says so, also after a restart', async () => {
  const session = await signedOutWithoutSignal()
  expect([session.signedIn, session.owed]).toEqual([false, true])
  const again = await opened()
  expect([again.session.known, again.session.signedIn, again.session.owed]).toEqual([true, false, true])
})

test('at the next contact it is honoured before anything is asked or shown', async () => {
  await signedOutWithoutSignal()
  server.signal = true
  const { session, states } = await opened()
  expect(server.asked).toEqual(['DELETE', 'GET'])
  expect(states).not.toContain(true)
  expect([session.signedIn, session.owed, server.signedIn]).toEqual([false, false, false])
})

test('a sign-out without its token is sent again with a fresh one', async () => {
  await signedOutWithoutSignal()
  Object.assign(server, { signal: true, refusing: 1 })
  const { session } = await opened()
  expect(server.asked).toEqual(['DELETE', 'GET', 'DELETE', 'GET'])
  expect([session.owed, server.signedIn]).toEqual([false, false])
})

test('it is sent once, however many ask at once', async () => {
  const session = await signedOutWithoutSignal()
  server.signal = true
  await Promise.all([session.settle(), session.settle()])
  expect(server.asked).toEqual(['DELETE'])
})

test('signing out everywhere needs signal: without it nothing is done', async () => {
  const { session } = await opened()
  server.signal = false
  expect((await session.signOutEverywhere()).ok).toBe(false)
  expect([session.signedIn, session.owed]).toEqual([true, false])
  server.signal = true
  await session.signOutEverywhere()
  expect([session.signedIn, server.signedIn]).toEqual([false, false])
})

test('whoever signs in next settles it first', async () => {
  const session = await signedOutWithoutSignal()
  server.signal = true
  await session.signIn('ines@fell.test', 'bolts-and-washers')
  expect(server.asked).toEqual(['DELETE', 'GET', 'POST'])
  expect([session.signedIn, session.owed]).toEqual([true, false])
  expect((await opened()).session.signedIn).toBe(true)
})

test('a sign-in ends a pending sign-out, even if that was never sent', async () => {
  const session = await signedOutWithoutSignal()
  Object.assign(server, { signal: true, refusing: 9 })
  await session.signIn('ines@fell.test', 'bolts-and-washers')
  expect([session.signedIn, session.owed]).toEqual([true, false])
  expect((await opened()).session.signedIn).toBe(true)
})

test('an answer from before the sign-out brings nobody back', async () => {
  const { session } = await opened()
  let release = () => {}
  server.held = new Promise((done) => {
    release = done
  })
  server.asked = []
  const asking = session.open()
  await vi.waitFor(() => expect(server.asked).toEqual(['GET']))
  await session.signOut()
  release()
  await asking
  expect(session.signedIn).toBe(false)
})

test('nor does the answer that a refused request asked for', async () => {
  const { session } = await opened()
  session.enter('fell')
  let release = () => {}
  server.held = new Promise((done) => {
    release = done
  })
  Object.assign(server, { stale: true, asked: [] })
  const { ask } = await import('../api/client')
  await ask({ method: 'get', path: '/api/v1/shops/{slug}/customers' })
  await vi.waitFor(() => expect(server.asked).toEqual(['GET', 'GET']))
  await session.signOut()
  release()
  await new Promise((done) => setTimeout(done))
  server.stale = false
  expect([session.signedIn, session.owed, server.signedIn]).toEqual([false, false, false])
})

const WAITING = { id: 'a', author: 'm', shop: 'fell', list: 'l', device: 'd', n: 1, body: {}, made_at: '' }

async function filled(): Promise<void> {
  const base = await db()
  await keepCopy({ user: bram.email, url: '/x', etag: null, data: 1, at: 1 })
  await base.put('queue', WAITING)
  await base.put('log', { list: 'l', seq: 1, event: {} })
  await base.put('log', { list: 'l', seq: 2, event: {}, kept: { ...WAITING, id: 'b' } })
}

async function left() {
  const base = await db()
  const [queue, log] = [await base.getAllKeys('queue'), await base.getAllKeys('log')]
  return { copy: await readCopy(bram.email, '/x'), queue, log }
}

test('copies and pulled logs go; what waits and what a restore would need again stay', async () => {
  const { session } = await opened()
  await filled()
  server.signal = false
  await session.signOut()
  expect(await left()).toEqual({ copy: undefined, queue: ['a'], log: [['l', 2]] })
})

test('a request with the cookie of before a new password does not end the sign-in', async () => {
  const { session } = await opened()
  session.enter('fell')
  server.stale = true
  const { ask } = await import('../api/client')
  server.asked = []
  await ask({ method: 'get', path: '/api/v1/shops/{slug}/customers' })
  await vi.waitFor(() => expect(server.asked).toEqual(['GET', 'GET']))
  await new Promise((done) => setTimeout(done))
  expect(session.ended).toBe(false)
  server.stale = false
})

test('a sign-in that the server ended leaves nothing to read, also after a restart without signal', async () => {
  const { session } = await opened()
  await filled()
  session.enter('fell')
  server.ended = true
  const { ask } = await import('../api/client')
  await ask({ method: 'get', path: '/api/v1/shops/{slug}/customers' })
  await vi.waitFor(() => expect([session.ended, session.user?.email]).toEqual([true, bram.email]))
  await vi.waitFor(async () =>
    expect(await left()).toEqual({ copy: undefined, queue: ['a'], log: [['l', 2]] }),
  )
  server.signal = false
  expect((await opened()).session.signedIn).toBe(false)
})
