import { render } from 'svelte/server'
import { beforeEach, expect, test, vi } from 'vitest'
import { session } from '../../lib/app/session.svelte'
import counter from '../../lib/messages/en-GB/counter.ftl'
import { learn } from '../../lib/text/text'
import Counter from './Counter.svelte'
import Found from './Found.svelte'
import type { Hit } from './finder.svelte'

// What the counter draws of one thing found, and of nothing found, without a server and without a browser.
vi.mock('../../lib/api/resource.svelte', () => ({
  resource: () => ({
    data: { answers: [], lapsing: [], laid_aside: [] },
    fresh: true,
    at: null,
    problem: null,
  }),
  follow() {},
}))
vi.mock('../../lib/app/router.svelte', () => ({ route: { path: '/', query: '' }, go() {} }))
vi.mock('./finder.svelte', () => ({
  Finder: class {
    asked = asked.q
    hits = []
  },
}))
const asked = vi.hoisted(() => ({ q: '' }))

learn(counter)

const part = { kind: 'part', id: 'p', title: 'GSK-1', detail: 'Gasket', why: '', amount: null, vehicles: [] }
const words = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
const found = (given: object) =>
  words(
    render(Found, { props: { hit: { ...part, ...given } as unknown as Hit, sought: '', onbegin() {} } }).body,
  )
const UNPRICED = 'No price recorded: enter one on the quote before you send it.'
const BARE = /New quote without a customer/g

beforeEach(() => {
  vi.spyOn(session, 'quotes', 'get').mockReturnValue(true)
  asked.q = ''
})

test('a part without a price says so beside the button that quotes it', () => {
  expect(found({})).toMatch(new RegExp(`${UNPRICED}.*Quote this part`))
})

test('a part with a price says its price', () => {
  expect(found({ amount: '12.50' })).toContain('12.50')
  expect(found({ amount: '12.50' })).not.toContain(UNPRICED)
})

test('whoever sees no price reads nothing of a missing one', () => {
  vi.spyOn(session, 'quotes', 'get').mockReturnValue(false)
  expect(found({})).not.toContain(UNPRICED)
})

test('a quote without a customer is offered once', () => {
  expect(words(render(Counter).body).match(BARE)).toHaveLength(1)
  asked.q = 'zz'
  expect(words(render(Counter).body).match(BARE)).toHaveLength(1)
})

test.each([
  ['job', 'waiting', 'waiting for parts'],
  ['job', 'in_bay', 'in the bay'],
  ['job', 'handed_over', 'handed over'],
  ['quote', 'sent', 'sent'],
])('a %s that is %s has the stamp "%s"', (kind, state, stamp) => {
  expect(found({ kind, state, title: 'Q-7' })).toContain(` ${stamp} `)
})
