import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from '../../../../lib/api/fakeNetwork'
import type { Quote } from '../draft.svelte'

type Reply = { status?: number; body?: unknown }
let replies: Reply[]
let requests: { method: string; path: string; body: unknown; key: string | null }[]

vi.stubGlobal('document', { cookie: '' })
answerRequests(async (request: Request) => {
  const { method, headers } = request
  const text = await request.text()
  const path = new URL(request.url).pathname.replace('/api/v1/shops/fell/quotes/', '')
  requests.push({
    method,
    path,
    body: text ? JSON.parse(text) : undefined,
    key: headers.get('Idempotency-Key'),
  })
  const { status = 200, body } = replies.shift() ?? {}
  return new Response(status === 204 ? null : JSON.stringify(body), { status })
})

const { Draft } = await import('../draft.svelte')
const { Sending } = await import('./sending.svelte')
const { session } = await import('../../../../lib/app/session.svelte')

const quote = (more: object = {}) =>
  ({
    id: 'q',
    revision: 1,
    version: 4,
    state: 'draft',
    editable: true,
    digest: null,
    totals: { gross: '17361.07' },
    ...more,
  }) as unknown as Quote
const sent = quote({ state: 'sent', editable: false, digest: 'ab' })
const link = { id: 'l', url: 'https://quotes.test/q/l/secret', recipient: 'Maren', expires_at: '' }

let draft: InstanceType<typeof Draft>
let sending: InstanceType<typeof Sending>
beforeEach(async () => {
  session.enter('fell')
  replies = [{ body: quote() }]
  requests = []
  draft = new Draft()
  await draft.open({ at: { id: 'q' } })
  sending = new Sending(draft)
  requests = []
})

test('sending names the version that was seen, and keeps the link that is shown only once', async () => {
  replies = [{ status: 201, body: { quote: sent, link } }]
  expect(await sending.send(quote(), 'Maren')).toBe(true)
  expect(requests[0]).toMatchObject({ method: 'POST', path: 'q/send' })
  expect(requests[0]?.body).toEqual({ version: 4, gross: '17361.07', recipient: 'Maren', below_floor: false })
  expect(requests[0]?.key).toMatch(/^[0-9a-f-]{36}$/)
  expect([draft.data?.state, sending.link?.url]).toEqual(['sent', link.url])
})

test('a draft that somebody changed is read again, and nothing is sent', async () => {
  const moved = { title: 'The draft has changed', detail: '', status: 409 }
  replies = [{ status: 409, body: moved }, { body: quote({ version: 5 }) }]
  expect(await sending.send(quote(), 'Maren')).toBe(false)
  expect(sending.refusalOf('send')?.title).toBe('The draft has changed')
  expect(sending.refusalOf('reply', 'withdraw')).toBe(null) // each form shows its own refusal
  expect([draft.data?.version, sending.link]).toEqual([5, null])
})

test('a cancelled link is no longer shown', async () => {
  replies = [{ status: 201, body: { quote: sent, link } }]
  await sending.send(quote(), 'Maren')
  replies = [{ status: 204 }, { body: sent }]
  await sending.revoke(sent, 'l')
  expect(requests[1]).toMatchObject({ method: 'DELETE', path: 'q/links/l' })
  expect(sending.link).toBe(null)
})

test('taking the quote back names the version and the text that was seen', async () => {
  replies = [{ body: quote({ state: 'withdrawn', editable: false }) }]
  await sending.withdraw(sent, sent)
  expect(requests[0]).toMatchObject({ path: 'q/withdraw', body: { revision: 1, digest: 'ab' } })
  expect(draft.data?.state).toBe('withdrawn')
})

test('an earlier version is withdrawn under the draft, which can still be changed', async () => {
  const under = quote({ revision: 2, out: { revision: 1, digest: 'ab' } })
  draft.replace(under, '"4"')
  replies = [{ body: quote({ revision: 2, out: null }) }]
  await sending.withdraw(under, { revision: 1, digest: 'ab' })
  expect(requests[0]).toMatchObject({ path: 'q/withdraw', body: { revision: 1, digest: 'ab' } })
  expect([draft.data?.revision, draft.data?.out, draft.etag]).toEqual([2, null, '"4"'])
})

test('a new version takes the place of the sent one and can be edited', async () => {
  draft.replace(sent, null)
  replies = [{ status: 201, body: quote({ revision: 2, version: 1 }) }]
  await sending.revise(sent)
  expect([draft.data?.revision, draft.data?.editable, draft.etag]).toEqual([2, true, '"1"'])
  expect(draft.turned).toBe(1)
})

test.each([4, 5])(
  'a fact of the vehicle turns the quote once, whatever version it brings (%d)',
  async (version) => {
    replies = [{ body: quote({ version, totals: { gross: '9.00' }, labour: { hours: '2' } }) }]
    draft.data = quote({ totals: { gross: '8.00' }, labour: { hours: '2' } })
    await draft.reread('Changed: Corrie')
    expect(draft.turned).toBe(1)
    expect(draft.moved).toEqual({ gross: '8.00', hours: null, ready: null, says: 'Changed: Corrie' })
  },
)
