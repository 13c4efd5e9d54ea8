import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from '../../../lib/api/fakeNetwork'
import words from '../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../lib/text/text'
import type { Change, Quote } from './draft.svelte'

learn(words)

let answers: Quote[]
let requests: { method: string; url: string; body: unknown; match: string | null }[]

vi.stubGlobal('document', { cookie: '' })
answerRequests(async (request: Request) => {
  const { method, headers } = request
  const text = await request.text()
  const url = decodeURIComponent(new URL(request.url).pathname).replace('/api/v1/shops/fell/quotes/q', '')
  requests.push({ method, url, body: text ? JSON.parse(text) : undefined, match: headers.get('If-Match') })
  const data = answers.shift() ?? quote()
  return Response.json(data, { headers: { ETag: `"${data.version}"` } })
})

const changes = {
  ...(await import('./changes')),
  ...(await import('./lines/lineChanges')),
  ...(await import('./prices/priceChanges')),
}
const rules = await import('./header/ruleChanges')
const { session } = await import('../../../lib/app/session.svelte')

const kit = (line: string, more: object = {}) =>
  ({
    line,
    kit: `kit-${line}`,
    key: `kit:${line}`,
    title: line,
    override: null,
    ...more,
  }) as Quote['kits'][number]
const quote = (more: object = {}) =>
  ({
    id: 'q',
    version: 1,
    kits: [],
    extras: [],
    customer: null,
    vehicle: null,
    condition: 'none',
    ...more,
  }) as unknown as Quote

beforeEach(() => {
  session.enter('fell')
  answers = []
  requests = []
})

const send = (change: Change, now: Quote) => change.send('"1"', now)

test('a kit is removed as it was seen', async () => {
  const before = quote({ kits: [kit('A'), kit('B')] })
  await send(changes.removeKit(before.kits[0] as Quote['kits'][number]), before)
  expect(requests[0]).toMatchObject({ method: 'DELETE', url: '/lines/A', match: '"1"' })
})

test('a kit is added whatever else was changed', async () => {
  await send(changes.addKit({ id: 'kit-A', title: 'A' }), quote())
  expect(requests[0]).toMatchObject({ method: 'POST', url: '/lines', body: { kind: 'kit', kit: 'kit-A' } })
  expect(requests[0]?.match).toBeNull()
})

test('an own figure is set, or the calculated one again', async () => {
  const own = { value: '3', because: 'more rust' }
  const figure = { key: 'labour:GEN-01', title: 'Set-up', override: null }
  await send(changes.setOverride(figure, own), quote())
  expect(requests[0]).toMatchObject({ method: 'PUT', url: '/overrides/labour:GEN-01', body: own })
  await send(changes.removeOverride({ ...figure, override: own }), quote())
  expect(requests[1]).toMatchObject({ method: 'DELETE', url: '/overrides/labour:GEN-01' })
})

test('a discount is given, or removed', async () => {
  const own = { percent: null, amount: '40', because: 'agreed' }
  await send(changes.setDiscount(own), quote())
  expect(requests[0]).toMatchObject({ method: 'PUT', url: '/discount', body: own, match: '"1"' })
  await send(changes.removeDiscount(), quote())
  expect(requests[1]).toMatchObject({ method: 'DELETE', url: '/discount' })
})

test('newer price rules are used, or not offered again', async () => {
  await send(rules.useRules(2, '1 Dec'), quote())
  expect(requests[0]).toMatchObject({ method: 'PATCH', body: { rules: 2 }, match: '"1"' })
  await send(rules.declineRules(2), quote())
  expect(requests[1]?.body).toEqual({ rules_declined: 2 })
})
