import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import words from '../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../lib/text/text'
import type { Change, Quote } from './draft.svelte'

learn(words)

let answers: Quote[]
let requests: { method: string; url: string; body: unknown; match: string | null }[]

vi.stubGlobal('document', { cookie: '' })
vi.stubGlobal(
  'Request',
  class extends Request {
    constructor(input: string, init?: RequestInit) {
      super(new URL(input, 'http://shop.test'), init)
    }
  },
)
vi.stubGlobal('fetch', async (request: Request) => {
  const { method, headers } = request
  const text = await request.text()
  const url = decodeURIComponent(new URL(request.url).pathname).replace('/api/v1/shops/fell/quotes/q', '')
  requests.push({ method, url, body: text ? JSON.parse(text) : undefined, match: headers.get('If-Match') })
  const data = answers.shift() ?? quote()
  return Response.json(data, { headers: { ETag: `"${data.version}"` } })
})

const changes = await import('./changes')
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

test('undoing the removal of a kit restores the price that a person had put in', async () => {
  const own = { value: '900.00', because: 'agreed by telephone' }
  const before = quote({ kits: [kit('A', { override: own }), kit('B')] })
  const after = quote({ kits: [kit('B')] })
  const off = changes.removeKit(before.kits[0] as Quote['kits'][number])
  await send(off, before)
  expect(requests[0]).toMatchObject({ method: 'DELETE', url: '/lines/A', match: '"1"' })

  answers = [quote({ version: 3, kits: [kit('B'), kit('C')] })]
  await send(off.undo?.(before, after) as Change, after)
  expect(requests[1]).toMatchObject({ method: 'POST', url: '/lines', body: { kind: 'kit', kit: 'kit-A' } })
  expect(requests[2]).toMatchObject({ method: 'PUT', url: '/overrides/kit:C', body: own, match: '"3"' })
})

test('undoing an override restores the one before it, or the calculated figure', async () => {
  const figure = { key: 'labour:GEN-01', title: 'Set-up', override: { value: '2.0', because: 'rust' } }
  const put = changes.setOverride(figure, { value: '3', because: 'more rust' })
  await send(put.undo?.(quote(), quote()) as Change, quote())
  expect(requests[0]).toMatchObject({ method: 'PUT', url: '/overrides/labour:GEN-01', body: figure.override })

  const first = changes.setOverride({ ...figure, override: null }, { value: '3', because: 'rust' })
  await send(first.undo?.(quote(), quote()) as Change, quote())
  expect(requests[1]).toMatchObject({ method: 'DELETE', url: '/overrides/labour:GEN-01' })
})

test('undoing a vehicle also removes the owner that it brought', async () => {
  const change = changes.setVehicle({ id: 'v', title: 'T35' })
  await send(change.undo?.(quote(), quote()) as Change, quote())
  expect(requests[0]?.body).toEqual({ vehicle: null, customer: null })
})

test('a hand-written line is removed, and undo restores it as it was', async () => {
  const line = { title: 'Alignment', quantity: '1', unit_price: '120.00', tax_class: 'sublet' }
  const after = quote({ extras: [{ line: 'X', price: '120.00', ...line }] })
  const off = changes.addText(line).undo?.(quote(), after) as Change
  await send(off, after)
  expect(requests[0]).toMatchObject({ method: 'DELETE', url: '/lines/X' })
  await send(off.undo?.(after, quote()) as Change, quote())
  expect(requests[1]?.body).toEqual({ kind: 'text', ...line })
})

test.each([
  ['2,5', '2.5'],
  [' 120 ', '120'],
])('%j is typed for %s', (typed, figure) => {
  expect(changes.typed(typed)).toBe(figure)
})

test('undoing a discount restores the one before it, or none', async () => {
  const was = { percent: '5', amount: null, because: 'Second job' }
  const own = { percent: null, amount: '40', because: 'agreed' }
  const change = changes.setDiscount(own)
  await send(change, quote())
  expect(requests[0]).toMatchObject({ method: 'PUT', url: '/discount', body: own, match: '"1"' })
  await send(
    change.undo?.(quote({ discount: { ...was, title: 'Discount, 5 %' } }), quote()) as Change,
    quote(),
  )
  expect(requests[1]).toMatchObject({ method: 'PUT', body: was })
  await send(change.undo?.(quote({ discount: null }), quote()) as Change, quote())
  expect(requests[2]).toMatchObject({ method: 'DELETE', url: '/discount' })
})

test('undoing newer price rules restores the ones before, with the condition that only those know', async () => {
  const before = quote({ rules: { number: 1, valid_from: '2026-01-01' }, condition: 'heavy' })
  const change = rules.useRules(2, '1 Dec')
  await send(change, before)
  expect(requests[0]).toMatchObject({ method: 'PATCH', body: { rules: 2 }, match: '"1"' })
  await send(change.undo?.(before, quote()) as Change, quote())
  expect(requests[1]?.body).toEqual({ rules: 1, condition: 'heavy' })
})

test('older price rules that were kept are offered the newer ones again', async () => {
  const before = quote({ rules: { newer: { number: 2, valid_from: '2026-12-01', declined: false } } })
  const change = rules.declineRules(2)
  await send(change, before)
  expect(requests[0]?.body).toEqual({ rules_declined: 2 })
  await send(change.undo?.(before, quote()) as Change, quote())
  expect(requests[1]?.body).toEqual({ rules_declined: null })
})
