import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from '../api/fakeNetwork'

vi.stubGlobal('document', { cookie: 'csrftoken=abc', visibilityState: 'visible' })

type Name = 'Bram' | 'Ines'
const PIN = { Bram: '402913', Ines: '771604' }
const SHOP = { slug: 'fell', role: 'parts', language: 'en-GB' }

/** A fake server: whose sign-in the cookie is, whose PINs work on this phone, and what was asked of whom. */
const server = {
  signal: true,
  person: 'Bram' as Name | null,
  pins: { 'pin-Bram': 'Bram', 'pin-Ines': 'Ines' } as Record<string, Name>,
  isBusy: false,
  asked: [] as string[],
}
const stateOf = (person: Name | null) => ({
  signed_in: person !== null,
  user: person && { name: person, email: `${person}@fell.test` },
  shops: person ? [{ ...SHOP, member: `member-${person}` }] : [],
  pins: Object.keys(server.pins),
  to_open: false,
  mail_is_sent: false,
})

const reply = (status: number, body?: unknown) =>
  new Response(body === undefined ? null : JSON.stringify(body), { status })
const refusal = (type: string, status = 401) =>
  reply(status, { type: `/problems/${type}`, title: type, status, detail: '' })

answerRequests(async (request: Request) => {
  const path = new URL(request.url).pathname.replace('/api/v1/', '')
  if (!server.signal) throw new TypeError('failed to fetch')
  server.asked.push(`${request.method} ${path} as ${server.person}`)
  if (request.method === 'DELETE') {
    server.person = null
    return reply(204)
  }
  if (path === 'pins') return reply(201, { id: `pin-${server.person}`, ends_at: '2099-01-01T00:00:00Z' })
  if (path === 'session/pin') {
    const { id, pin } = (await request.json()) as { id: string; pin: string }
    if (server.isBusy) return refusal('throttled', 429)
    const person = server.pins[id]
    if (!person) return refusal('pin-ended')
    if (PIN[person] !== pin) return refusal('wrong-pin')
    server.person = person
  }
  if (path.startsWith('shops/')) return reply(200, { reads: server.person })
  return reply(200, stateOf(server.person))
})

// A thousandth of the rounds, so that the tests are quick.
const deriveBits = crypto.subtle.deriveBits.bind(crypto.subtle)
vi.spyOn(crypto.subtle, 'deriveBits').mockImplementation((how, key, length) => {
  const slow = how as Pbkdf2Params
  return deriveBits({ ...slow, iterations: slow.iterations / 1000 }, key, length)
})

const { db, keepCopy, readCopy, recall } = await import('../device/database')
const { ask, read } = await import('../api/client')
const { Session } = await import('./session.svelte')
const { openWithPin } = await import('./pinLock')

const opened = async () => {
  const session = new Session()
  await session.open()
  session.enter('fell')
  return session
}
const copyOf = async (name: Name) => (await readCopy(`${name}@fell.test`, '/x'))?.data
const wrongTries = async () => ((await recall<{ wrong: number }[]>('people')) ?? []).map(({ wrong }) => wrong)

/** A phone on which both have set a PIN. Bram is here, and each has a copy of what they read. */
async function sharedPhone() {
  let session = await opened()
  for (const name of ['Ines', 'Bram'] as const) {
    server.person = name
    session = await opened()
    await session.setPin(PIN[name], 'bolts-and-washers')
    await keepCopy({ user: `${name}@fell.test`, url: '/x', etag: null, data: name, at: 1 })
  }
  server.asked = []
  return session
}

beforeEach(async () => {
  Object.assign(server, {
    signal: true,
    person: 'Bram',
    pins: { 'pin-Bram': 'Bram', 'pin-Ines': 'Ines' },
    isBusy: false,
    asked: [],
  })
  await (await db()).clear('device')
  await (await db()).clear('copies')
})

test('with signal the server changes the person, and the one before stays closed but copied', async () => {
  const session = await sharedPhone()
  expect(await session.change('pin-Ines', PIN.Ines)).toBeNull()
  expect([session.user?.name, server.person, session.owed]).toEqual(['Ines', 'Ines', false])
  expect(await copyOf('Bram')).toBe('Bram')
  expect(await read('jobs')).toMatchObject({ data: { reads: 'Ines' } })
})

test('whoever is here without a PIN leaves no copy behind when the next takes over', async () => {
  await sharedPhone()
  server.pins = { 'pin-Ines': 'Ines' }
  const session = await opened()
  expect(session.people.map(({ name }) => name)).toEqual(['Ines'])
  expect(await copyOf('Bram')).toBe('Bram')
  await session.change('pin-Ines', PIN.Ines)
  expect([await copyOf('Bram'), await copyOf('Ines')]).toEqual([undefined, 'Ines'])
})

test('without signal a PIN opens its own person, and the sign-in of the one before is owed its end', async () => {
  const session = await sharedPhone()
  server.signal = false
  expect(await session.change('pin-Ines', PIN.Ines)).toBeNull()
  expect([session.user?.name, session.shop?.member, session.owed]).toEqual(['Ines', 'member-Ines', true])
  server.signal = true
  expect(await read('jobs')).toMatchObject({ data: { reads: 'Ines' } })
  expect(server.asked).toEqual([
    'DELETE session as Bram',
    'POST session/pin as null',
    'GET shops/fell/jobs as Ines',
  ])
  expect([session.user?.name, session.owed]).toEqual(['Ines', false])
})

test('while the server cannot be told, nothing is asked with the sign-in of the one before', async () => {
  const session = await sharedPhone()
  server.signal = false
  await session.change('pin-Ines', PIN.Ines)
  Object.assign(server, { signal: true, isBusy: true })
  expect(await read('jobs')).toMatchObject({ ok: false })
  expect(await ask({ method: 'delete', path: '/api/v1/sessions' })).toMatchObject({ ok: false })
  expect(server.asked.filter((line) => /jobs|sessions/.test(line))).toEqual([])
})

test('after a reload without signal nobody is here, and the PIN is asked for again', async () => {
  const session = await sharedPhone()
  server.signal = false
  await session.change('pin-Ines', PIN.Ines)
  const again = await opened()
  expect([again.signedIn, again.people.length]).toEqual([false, 2])
  server.signal = true
  const later = await opened()
  expect([later.signedIn, server.person]).toEqual([false, null])
})

test('a PIN that was ended meanwhile closes the person and their copies at the first contact', async () => {
  const session = await sharedPhone()
  server.signal = false
  await session.change('pin-Ines', PIN.Ines)
  Object.assign(server, { signal: true, pins: { 'pin-Bram': 'Bram' } })
  await session.settle()
  expect([session.ended, server.person, await copyOf('Ines')]).toEqual([true, null, undefined])
  expect(session.people.map(({ name }) => name)).toEqual(['Bram'])
  expect((await opened()).signedIn).toBe(false)
})

test('the phone hears of an ended PIN also from a session that it only reads', async () => {
  await sharedPhone()
  server.pins = { 'pin-Bram': 'Bram' }
  const session = await opened()
  expect(session.people.map(({ name }) => name)).toEqual(['Bram'])
  expect(await copyOf('Ines')).toBeUndefined()
  server.signal = false
  expect(await session.change('pin-Ines', PIN.Ines)).not.toBeNull()
  expect(session.user?.name).toBe('Bram')
})

test('without signal five wrong tries close a PIN, also over a reload and for the right digits', async () => {
  let session = await sharedPhone()
  server.signal = false
  const types: (string | undefined)[] = []
  for (let attempt = 0; attempt < 5; attempt++) {
    session = await opened()
    types.push((await session.change('pin-Ines', '111222'))?.type)
  }
  expect(types).toEqual([...Array(4).fill('/problems/wrong-pin'), '/problems/pin-used-up'])
  expect(await session.change('pin-Ines', PIN.Ines)).toMatchObject({ type: '/problems/pin-used-up' })
  expect([session.user?.name, session.owed]).toEqual(['Bram', false])
  expect(await wrongTries()).toEqual([5, 0])
  Object.assign(server, { signal: true, person: 'Ines' })
  await session.signIn('Ines@fell.test', 'bolts-and-washers')
  expect(await wrongTries()).toEqual([0, 0])
})

test('tries at once in two tabs are all counted', async () => {
  await sharedPhone()
  server.signal = false
  const tries = await Promise.all(Array.from({ length: 7 }, () => openWithPin('pin-Ines', '111222')))
  expect(tries.filter(({ problem }) => problem?.type === '/problems/pin-used-up')).toHaveLength(3)
  expect(await wrongTries()).toEqual([5, 0])
})

test('the right PIN forgets the slips before it, and a wrong one changes nobody', async () => {
  const session = await sharedPhone()
  expect(await session.change('pin-Ines', '111222')).toMatchObject({ type: '/problems/wrong-pin' })
  expect([session.user?.name, session.ended, await wrongTries()]).toEqual(['Bram', false, [1, 0]])
  server.signal = false
  await session.change('pin-Ines', '111222')
  expect(await wrongTries()).toEqual([2, 0])
  await session.change('pin-Ines', PIN.Ines)
  expect(await wrongTries()).toEqual([0, 0])
})

test('what the phone keeps is not the PIN', async () => {
  await sharedPhone()
  const people = (await recall<{ lock: { rounds: number; salt: Uint8Array } }[]>('people')) ?? []
  expect(people.map(({ lock }) => lock.rounds)).toEqual([600_000, 600_000])
  expect(people[0]?.lock.salt).not.toEqual(people[1]?.lock.salt)
  expect(JSON.stringify(people)).not.toContain(PIN.Ines)
})

test('past its last day a PIN opens nothing, also without signal', async () => {
  const session = await sharedPhone()
  const people = (await recall<{ ends_at: string }[]>('people')) ?? []
  await (await db()).put(
    'device',
    people.map((person) => ({ ...person, ends_at: '2020-01-01T00:00:00Z' })),
    'people',
  )
  server.signal = false
  expect(await session.change('pin-Ines', PIN.Ines)).toMatchObject({ type: '/problems/pin-ended' })
  expect(session.user?.name).toBe('Bram')
})

test('a late refusal of the one before does not bring them back', async () => {
  const session = await sharedPhone()
  server.signal = false
  await session.change('pin-Ines', PIN.Ines)
  server.signal = true
  await (session as unknown as { end(): Promise<void> }).end() // as after a 401 of a request that Bram's screen had sent
  expect([session.user?.name, session.ended]).toEqual(['Ines', false])
})

test('signing out leaves the names on the phone', async () => {
  const session = await sharedPhone()
  await session.signOut()
  expect([session.signedIn, session.people.length]).toEqual([false, 2])
  expect(await copyOf('Bram')).toBeUndefined()
  expect(await session.change('pin-Bram', PIN.Bram)).toBeNull()
})

test('a PIN whose answer comes after signing out stands under its person’s name', async () => {
  const session = await opened()
  const setting = session.setPin(PIN.Bram, 'bolts-and-washers')
  await session.signOut()
  await setting
  expect(session.people.map(({ name }) => name)).toEqual(['Bram'])
})
