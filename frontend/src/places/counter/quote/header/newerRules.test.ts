import { render } from 'svelte/server'
import { beforeEach, expect, test, vi } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import NewerRules from './NewerRules.svelte'

// Tests the offer of newer price rules: its request, and the markup of the answer.
const request = vi.hoisted(() => ({ how: undefined as unknown, data: undefined as unknown }))
vi.mock('../../../../lib/api/resource.svelte', () => ({
  resource(_path: string, how: () => unknown) {
    request.how = how()
    return { data: request.data, fresh: true, at: null, problem: null }
  },
}))
learn(words)

// written as pairs: a literal with "then" looks like a promise
const row = (now: string | null, after: string) => ({
  now,
  moved: true,
  ...Object.fromEntries([['then', after]]),
})
const comparison = {
  number: 2,
  words: 'Newer rules apply from Mon 7 Dec 2026.',
  stops: '',
  figures: [{ title: 'Total with tax', ...row('14,502.68', '14,900.00') }],
  lines: [{ title: 'Cleaning', ...row(null, '12.00') }],
}

beforeEach(() => {
  request.data = comparison
})

function drawn(declined = false, newer: object | null = { valid_from: '2026-12-07', declined }): string {
  const quote = { id: 'q', rules: { newer } }
  return render(NewerRules, { props: { draft: {}, quote } as never })
    .body.replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
}

test('it says what the newer rules change and offers both answers', () => {
  const screen = drawn()
  expect(request.how).toEqual({ at: { id: 'q' } })
  expect(screen).toMatch(/Now Then Total with tax 14,502.68 14,900.00/)
  expect(screen).toContain('1 line changes')
  expect(screen).toMatch(/Use the new rules Keep the old ones/)
})

test('the totals are not repeated in a sentence above their table', () => {
  const sentences = () => drawn().match(/Newer rules apply/g)?.length // one of them is the caption of the table
  expect(sentences()).toBe(2)
  request.data = { ...comparison, figures: comparison.figures.map((row) => ({ ...row, code: 'total' })) }
  expect(sentences()).toBe(1)
  expect(drawn()).toContain('in force from Mon 7 Dec 2026')
})

test('rules that cannot be used say why and are not offered', () => {
  request.data = { ...comparison, stops: 'The new rules have no rate for welding.' }
  const screen = drawn()
  expect(screen).toContain('The new rules have no rate for welding.')
  expect(screen).not.toContain('Use the new rules')
  expect(screen).not.toContain('14,900.00')
})

test('once the old rules are kept one button is left, and nothing is asked', () => {
  const screen = drawn(true)
  expect(request.how).toBeNull()
  expect(screen).toMatch(/Newer price rules of Mon 7 Dec 2026: what they would change/)
  expect(screen).not.toContain('Keep the old ones')
})

test('without newer rules there is nothing', () => {
  expect(drawn(false, null).trim()).toBe('')
})
