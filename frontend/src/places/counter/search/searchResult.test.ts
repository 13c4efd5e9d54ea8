import { render } from 'svelte/server'
import { beforeEach, expect, test, vi } from 'vitest'
import { session } from '../../../lib/app/session.svelte'
import counter from '../../../lib/messages/en-GB/counter.ftl'
import { learn } from '../../../lib/text/text'
import Counter from '../Counter.svelte'
import QuoteLine from '../QuoteLine.svelte'
import type { Hit } from './finder.svelte'
import SearchResult from './SearchResult.svelte'

// Tests the markup of one hit and of a search without hits, without a server or a browser.
vi.mock('../../../lib/api/resource.svelte', () => ({
  resource: () => ({
    data: { answers: [], follow_up: [], laid_aside: [], mails: [] },
    fresh: true,
    at: null,
    problem: null,
  }),
  follow() {},
}))
vi.mock('../../../lib/app/router.svelte', () => ({ route: { path: '/', query: '' }, go() {} }))
vi.mock('./finder.svelte', () => ({
  Finder: class {
    query = typed.q
    items = []
  },
}))
const typed = vi.hoisted(() => ({ q: '' }))

learn(counter)

const part = { kind: 'part', id: 'p', title: 'GSK-1', detail: 'Gasket', why: '', amount: null, vehicles: [] }
const words = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
const wordsOf = (fields: object) =>
  words(
    render(SearchResult, {
      props: { hit: { ...part, ...fields } as unknown as Hit, sought: '', onbegin() {} },
    }).body,
  )
const UNPRICED = 'No price recorded: enter one on the quote before you send it.'
const BARE = /New customer: /g

beforeEach(() => {
  vi.spyOn(session, 'quotes', 'get').mockReturnValue(true)
  typed.q = ''
})

test('a part without a price says so beside the button that quotes it', () => {
  expect(wordsOf({})).toMatch(new RegExp(`${UNPRICED}.*Quote this part`))
})

test('a part with a price says its price', () => {
  expect(wordsOf({ amount: '12.50' })).toContain('12.50')
  expect(wordsOf({ amount: '12.50' })).not.toContain(UNPRICED)
})

test('whoever sees no price reads nothing of a missing one', () => {
  vi.spyOn(session, 'quotes', 'get').mockReturnValue(false)
  expect(wordsOf({})).not.toContain(UNPRICED)
})

test('a new quote is offered once, and where nothing is found a new customer', () => {
  expect(words(render(Counter).body).match(/New quote/g)).toHaveLength(1)
  typed.q = 'zz'
  expect(words(render(Counter).body).match(BARE)).toHaveLength(1)
})

test.each([
  ['customer', 'Their quotes'],
  ['vehicle', 'Its quotes'],
  ['kit', 'Quotes with this kit'],
  ['part', 'Quotes with this part'],
] as const)('a %s leads to its quotes', (kind, label) => {
  const hit = { ...part, kind } as unknown as Hit
  const { body } = render(SearchResult, { props: { hit, sought: '', onbegin() {} } })
  expect(words(body)).toContain(label)
  expect(body).toContain(`/counter/quotes?${kind}=p"`)
  vi.spyOn(session, 'quotes', 'get').mockReturnValue(false)
  expect(wordsOf({ kind })).not.toContain(label)
})

test.each([
  ['job', 'waiting', 'waiting for parts'],
  ['job', 'in_bay', 'in the bay'],
  ['job', 'handed_over', 'handed over'],
  ['quote', 'sent', 'sent'],
])('a %s that is %s has the stamp "%s"', (kind, state, stamp) => {
  expect(wordsOf({ kind, state, title: 'Q-7' })).toContain(` ${stamp} `)
})

test.each([
  ['accepted', { sent_at: 5, answered_at: 2 }, '2 d'],
  ['sent', { sent_at: 5 }, '5 d'],
  ['draft', {}, '9 d'],
])('the age of a quote that is %s counts from the last thing that happened', (state, at, age) => {
  const ago = (days: number) => new Date(Date.now() - days * 86_400_000).toISOString()
  const days = { sent_at: null, answered_at: null, ...at }
  const instants = Object.entries(days).map(([name, n]) => [name, n === null ? null : ago(n)])
  const row = { id: 'q', number: 'Q-7', kits: [], changed_at: ago(9), state, ...Object.fromEntries(instants) }
  expect(words(render(QuoteLine, { props: { row: row as never } }).body)).toContain(` ${age} `)
})
