import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, test, vi } from 'vitest'
import { fold } from '../../calc/counting'
import { db } from '../device/database'
import { ME, type Raw, type Sent, Server } from './fakeServer'
import type { SendRequest } from './log'

vi.stubGlobal('document', { cookie: '', visibilityState: 'visible' })
const { CountLog } = await import('./log')
const { keep, moveToDrawer, refused, settle, waiting } = await import('./queue')
const { sendAll } = await import('./send')

const LIST = 'list-1'
const whose = { shop: 'fell', list: LIST, author: ME }
const SCREEN = { epoch: 1, seen: 0 }

let server: Server
const send = () => sendAll(new Set([ME]), server.reach)
const count = (line: string, total: number) =>
  keep(whose, [{ line, kind: 'set', total, damaged: 0, how: 'counted' }], SCREEN)

async function opened() {
  const log = new CountLog(whose, undefined, server.reach)
  await log.open()
  return log
}

const tallies = (log: InstanceType<typeof CountLog>) =>
  Object.fromEntries([...fold(log.events)].map(([line, { total }]) => [line, total]))

beforeEach(async () => {
  server = new Server()
  const base = await db()
  for (const store of ['queue', 'drawer', 'log', 'device'] as const) await base.clear(store)
})

describe('keeping a count', () => {
  test('it is in the queue before the answer, numbered by the device', async () => {
    const [first] = await count('pin', 4)
    const [second] = await count('pin', 5)
    expect((await waiting(LIST)).map(({ id }) => id)).toEqual([first?.id, second?.id])
    expect([first?.n, second?.n]).toEqual([1, 2])
    expect(second?.device).toBe(first?.device)
  })

  test('counts kept at the same moment share no number', async () => {
    await Promise.all([count('a', 1), count('b', 2), count('c', 3)])
    expect((await waiting()).map(({ n }) => n)).toEqual([1, 2, 3])
  })

  test('a wiped phone is another device', async () => {
    const [before] = await count('pin', 4)
    await (await db()).clear('device')
    const [after] = await count('pin', 4)
    expect(after?.device).not.toBe(before?.device)
    expect(after?.n).toBe(1)
  })

  test('it says what was on the screen, and no more', async () => {
    for (const total of [2, 3, 4, 5]) server.other('pin', total)
    const log = await opened()
    await log.pull()
    server.other('pin', 6)
    const [event] = await log.count([{ line: 'pin', kind: 'set', total: 7, damaged: 0 }])
    expect(event?.body).toMatchObject({ seen: 4, epoch: 1, kind: 'set', total: 7, damaged: 0, target: null })
  })
})

describe('sending', () => {
  test('an event leaves the queue only when the pull brings it back', async () => {
    await count('pin', 4)
    server.before = ({ method }) => (method === 'get' ? 0 : undefined)
    expect((await send()).left).toBe(1)
    expect(server.log).toHaveLength(1)
    server.before = () => undefined
    expect(await send()).toEqual({ left: 0, problem: null })
    expect(tallies(await opened())).toEqual({ pin: 4 })
  })

  test('a lost answer is sent again and is one event', async () => {
    await count('pin', 4)
    let lost = 0
    server.loses = ({ method }) => method === 'post' && lost++ === 0
    expect((await send()).problem?.status).toBe(0)
    expect((await waiting()).length).toBe(1)
    expect((await send()).left).toBe(0)
    expect(server.log).toHaveLength(1)
  })

  test.each([
    ['another phone', { device: 'another' }],
    ['another number', { n: 9 }],
  ])('an event with the same id of %s does not take ours away', async (_, change) => {
    const [event] = await count('pin', 4)
    const other = { ...(event?.body as Sent), ...change, author: 'member-oda', seq: 1 }
    server.log.push(other as never)
    await (await opened()).pull()
    expect((await waiting()).map(({ id }) => id)).toEqual([event?.id])
  })

  test('a refused one goes to the drawer, the others go out', async () => {
    server.rejects.add('nowhere')
    await count('pin', 4)
    const [bad] = await count('nowhere', 1)
    await count('nut', 2)
    expect((await send()).left).toBe(0)
    expect((await refused()).map(({ id, problem }) => [id, problem])).toEqual([[bad?.id, 'unknown_line']])
    expect(server.log.map(({ line }) => line)).toEqual(['pin', 'nut'])
    await settle(bad?.id ?? '')
    expect(await refused()).toEqual([])
  })

  test.each([401, 403, 404, 408, 429, 500, 503])('%i keeps everything', async (status) => {
    await count('pin', 4)
    server.before = () => status
    const { left, problem } = await send()
    expect([left, problem?.status]).toEqual([1, status])
    expect(await refused()).toEqual([])
  })

  test('a list out of reach does not hold up the next', async () => {
    await keep({ ...whose, list: 'gone' }, [{ line: 'x', kind: 'set', total: 1, damaged: 0 }], SCREEN)
    await count('pin', 4)
    server.before = (raw) => ((raw as Raw & { at: { id: string } }).at.id === 'gone' ? 404 : undefined)
    expect((await send()).left).toBe(1)
    expect(server.log.map(({ line }) => line)).toEqual(['pin'])
  })

  test.each([0, 401, 429, 503])('%i would be the same for every other list', async (status) => {
    await keep({ ...whose, list: 'other' }, [{ line: 'x', kind: 'set', total: 1, damaged: 0 }], SCREEN)
    await count('pin', 4)
    server.before = () => status
    expect((await send()).left).toBe(2)
    expect(server.posts()).toBe(1)
  })

  test('413 halves the batch until it fits', async () => {
    for (let at = 0; at < 10; at += 1) await count(`line-${at}`, at)
    server.before = ({ method, body }) =>
      method === 'post' && (body as { events: Sent[] }).events.length > 3 ? 413 : undefined
    expect((await send()).left).toBe(0)
    expect(server.log.map(({ total }) => total)).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9])
  })

  test('no batch is larger than two hundred', async () => {
    const drafts = Array.from({ length: 450 }, (_, at) => ({
      line: `line-${at}`,
      kind: 'set' as const,
      total: 1,
      damaged: 0,
    }))
    await keep(whose, drafts, SCREEN)
    await send()
    const sizes = server.requests.flatMap(({ body }) =>
      body ? [(body as { events: Sent[] }).events.length] : [],
    )
    expect(sizes).toEqual([200, 200, 50])
    expect(server.log.map(({ n }) => n)).toEqual(drafts.map((_, at) => at + 1))
  })

  test("another person's counts stay for that person", async () => {
    await keep({ ...whose, author: 'member-oda' }, [{ line: 'x', kind: 'set', total: 1, damaged: 0 }], SCREEN)
    expect((await send()).left).toBe(0)
    expect((await waiting()).length).toBe(1)
    expect(server.posts()).toBe(0)
  })

  test('what came after closing is known to the server and changes nothing', async () => {
    await count('pin', 4)
    await send()
    server.state = 'closed'
    await count('pin', 9)
    expect((await send()).left).toBe(0)
    const log = await opened()
    await log.pull()
    expect([tallies(log), log.state]).toEqual([{ pin: 4 }, 'closed'])
  })
})

describe('pulling', () => {
  test('it takes only what follows on what it has, and asks again', async () => {
    for (const line of ['a', 'b', 'c', 'd', 'e']) server.other(line, 1)
    let bent = 0
    server.bends = (page) => {
      if (bent++ === 1) page.events.shift()
    }
    const log = await opened()
    expect(await log.pull()).toBeNull()
    expect(log.pulled.map(({ seq }) => seq)).toEqual([1, 2, 3, 4, 5])
  })

  test('a hole that stays is never jumped', async () => {
    for (const line of ['a', 'b', 'c']) server.other(line, 1)
    server.bends = (page) => {
      page.events = page.events.filter(({ seq }) => seq !== 2)
    }
    const log = await opened()
    await log.pull()
    expect(log.seq).toBe(1)
    expect((await opened()).seq).toBe(1)
  })

  test('a page that goes further back adds only what is new', async () => {
    for (const line of ['a', 'b']) server.other(line, 1)
    const log = await opened()
    await log.pull()
    server.other('c', 1)
    server.bends = (page) => {
      page.events = structuredClone(server.log)
    }
    await log.pull()
    expect(log.pulled.map(({ seq }) => seq)).toEqual([1, 2, 3])
  })

  test('what waits is on the screen as soon as the list is opened', async () => {
    await count('pin', 4)
    expect(tallies(await opened())).toEqual({ pin: 4 })
  })

  test('it goes on where it was after a restart', async () => {
    server.other('pin', 4)
    await (await opened()).pull()
    server.requests = []
    server.other('pin', 5)
    const log = await opened()
    expect(tallies(log)).toEqual({ pin: 4 })
    await log.pull()
    expect(server.requests.map(({ query }) => query?.after)).toEqual([1])
    expect(tallies(log)).toEqual({ pin: 5 })
  })

  test('own work stays on the screen beside what others counted', async () => {
    server.other('pin', 3)
    const log = await opened()
    await log.pull()
    server.other('pin', 5)
    await log.count([{ line: 'pin', kind: 'set', total: 4, damaged: 0 }])
    await log.pull()
    expect(fold(log.events).get('pin')).toEqual({ total: 5, damaged: 0, low: 4, confirm: true })
  })

  test('it names the lines that may look different', async () => {
    const messages: string[][] = []
    const log = new CountLog(whose, (lines) => messages.push([...lines]), server.reach)
    await log.open()
    server.other('pin', 3)
    await log.pull()
    await log.count([{ line: 'nut', kind: 'set', total: 4, damaged: 0 }])
    expect(messages).toEqual([[], ['pin'], ['nut']])
  })

  test('a fold that differs from the server’s is read again once, then reported', async () => {
    server.other('pin', 3)
    const log = await opened()
    let bent = 0
    server.bends = (page) => {
      if (bent++ === 0) page.digest = 'not ours'
    }
    await log.pull()
    expect([log.astray, log.seq, server.requests.length]).toEqual([false, 1, 2])
    server.bends = (page) => {
      page.digest = 'never ours'
    }
    await log.pull()
    expect([log.astray, tallies(log)]).toEqual([true, { pin: 3 }])
  })

  test('after a restore this phone sends again what it had sent', async () => {
    server.other('pin', 3)
    await count('nut', 4)
    await send()
    expect((await waiting()).length).toBe(0)
    server.log = server.log.slice(0, 1)
    server.epoch = 2
    const log = await opened()
    await log.pull()
    expect([log.epoch, log.seq]).toEqual([2, 1])
    expect((await waiting()).length).toBe(1)
    expect(tallies(log)).toEqual({ pin: 3, nut: 4 })
    await send()
    expect(server.log.map(({ line }) => line)).toEqual(['pin', 'nut'])
  })

  test('a count that waits from before a restore does not know what came after it', async () => {
    server.other('pin', 3)
    server.other('pin', 5)
    const log = await opened()
    await log.pull()
    await log.count([{ line: 'pin', kind: 'set', total: 4, damaged: 0 }])
    expect(fold(log.events).get('pin')).toMatchObject({ total: 4, confirm: false })
    server.log = server.log.slice(0, 1)
    server.epoch = 2
    server.other('pin', 6)
    await log.pull()
    expect(fold(log.events).get('pin')).toMatchObject({ total: 6, low: 4, confirm: true })
  })
})

test('every event is at every moment in the queue, the log or the drawer', async () => {
  server.rejects.add('nowhere')
  const ids = [...(await count('pin', 4)), ...(await count('nowhere', 1))].map(({ id }) => id)
  const steps = [
    () => send(),
    async () => moveToDrawer(await waiting()),
    async () => {
      await (await opened()).pull()
    },
  ]
  for (const step of steps) {
    await step()
    const base = await db()
    const stored = new Set(
      [
        ...(await base.getAllKeys('queue')),
        ...(await base.getAllKeys('drawer')),
        ...(await base.getAll('log')).map(({ event }) => (event as Sent).id),
      ].map(String),
    )
    expect(ids.every((id) => stored.has(id))).toBe(true)
  }
})

test('counts of several people go out in the name of each, and a refused name stops nobody else', async () => {
  const names: unknown[] = []
  await keep({ ...whose, author: 'member-bram' }, [{ line: 'a', kind: 'set', total: 4, damaged: 0 }], SCREEN)
  await count('b', 3)
  server.before = (raw) => {
    if (raw.method === 'post') names.push((raw as { headers?: Record<string, string> }).headers?.['X-Member'])
    return undefined
  }
  const reach = server.reach
  server.reach = (async (request: Raw & { headers?: Record<string, string> }) => {
    const answer = await reach(request as never)
    if (request.headers?.['X-Member'] !== 'member-bram' || request.method !== 'post') return answer
    server.log.pop()
    return { ok: false, problem: { type: '/problems/another-person', title: 'x', status: 401, detail: 'x' } }
  }) as SendRequest
  await sendAll(new Set(['member-bram', ME]), server.reach)
  expect(names).toEqual(['member-bram', ME])
  expect((await waiting()).map(({ author }) => author)).toEqual(['member-bram'])
})
