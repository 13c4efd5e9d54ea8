import { readdirSync, readFileSync } from 'node:fs'
import { beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from './fakeNetwork'

const page = { cookie: 'csrftoken=abc' }
vi.stubGlobal('document', page)
let requests: Request[] = []
let reply = new Response('{}')
answerRequests(async (request: Request) => {
  requests.push(request)
  return reply
})
const { ask, call, callFor, csrfToken, read, write } = await import('./client')
const ended = vi.fn()
callFor('fell', ended)

beforeEach(() => {
  requests = []
  reply = new Response('{"items":[]}', { headers: { ETag: '"1"', Link: '</next?cursor=a>; rel="next"' } })
  ended.mockClear()
})

test.each([
  ['csrftoken=abc', 'abc'],
  ['a=b; __Host-csrftoken=abc; c=d', 'abc'],
  ['csrftoken=left-over; __Host-csrftoken=abc', 'abc'],
  ['xcsrftoken=abc', undefined],
  ['', undefined],
])('the token of %j is %s', (cookies, token) => {
  expect(csrfToken(cookies)).toBe(token)
})

test('a path and a query are filled in, and empty values are left out', async () => {
  const answer = await read('kits', { query: { q: 'front & rear', vehicle: undefined } })
  expect(requests[0]?.url).toBe('http://shop.test/api/v1/shops/fell/kits?q=front+%26+rear')
  expect(requests[0]?.headers.get('X-CSRFToken')).toBeNull()
  expect(answer).toEqual({ ok: true, status: 200, data: { items: [] }, etag: '"1"', next: 'a' })
  await ask({ method: 'delete', path: '/api/v1/sessions/{id}', at: { id: 'a/b' } })
  expect(requests[1]?.url).toBe('http://shop.test/api/v1/sessions/a%2Fb')
})

test('a change carries its body as JSON, its name, the version that was seen and the token', async () => {
  await write('post', 'quotes', {}, { kits: ['k'] }, { id: 'command', match: '"3"' })
  const [request] = requests
  expect(request?.method).toBe('POST')
  expect(await request?.json()).toEqual({ kits: ['k'] })
  const headers = ['Content-Type', 'Idempotency-Key', 'If-Match', 'X-CSRFToken']
  expect(headers.map((name) => request?.headers.get(name))).toEqual([
    'application/json',
    'command',
    '"3"',
    'abc',
  ])
  await write('post', 'imports', {}, new FormData(), { id: 'file' })
  expect(requests[1]?.headers.get('Content-Type')).toMatch(/^multipart\/form-data; boundary=/)
})

test('an answer without a body has no data', async () => {
  reply = new Response(null, { status: 204 })
  expect(await call({ method: 'delete', path: '/x' })).toMatchObject({ ok: true, data: undefined })
})

test('a refusal is what the server says; from something between, what we can say', async () => {
  const problem = { type: 'invalid', title: 'Not saved', detail: 'Enter a name.' }
  reply = new Response(JSON.stringify(problem), { status: 400 })
  expect(await call({ method: 'get', path: '/x' })).toEqual({
    ok: false,
    problem: { ...problem, status: 400 },
  })
  reply = new Response('<h1>Bad gateway</h1>', { status: 502 })
  expect(await call({ method: 'get', path: '/x' })).toMatchObject({
    ok: false,
    problem: { type: 'unknown', status: 502 },
  })
  reply = new Response('{}', { status: 401 })
  await call({ method: 'get', path: '/x' })
  expect(ended).toHaveBeenCalledOnce()
})

test('an answer that is no JSON counts as none', async () => {
  reply = new Response('<h1>Sign in to the network</h1>')
  expect(await call({ method: 'get', path: '/x' })).toMatchObject({ ok: false, problem: { status: 0 } })
})

test('nobody casts an answer: its type is read from the document', () => {
  const files = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((name) =>
    /(?<!\.test)\.(ts|svelte)$/.test(name),
  )
  const casts = (name: string) =>
    /answer\.data as |as (Promise<)?Answer</.test(readFileSync(`src/${name}`, 'utf8'))
  expect(files.filter(casts)).toEqual([])
  expect(files.length).toBeGreaterThan(100)
})
