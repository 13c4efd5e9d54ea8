import { expect, test } from 'vitest'
import { learn } from '../../../lib/text'
import { quote as words } from '../../../lib/words/quote'
import { thumbWords } from './thumb'

learn(words)

type Told = Parameters<typeof thumbWords>[0]
const quote = (more: object = {}) =>
  ({
    editable: true,
    stops: [],
    decide: [],
    notices: [],
    labour: { hours: '12.4' },
    ...more,
  }) as unknown as Told
const margin = { rate: '0.3023', words: [] }
const notice = (of: string) => ({ about: '', code: '', words: of })

test('where all is settled it tells hours and margin', () => {
  expect(thumbWords(quote(), margin)).toBe('12.4 h, margin 30.23 %')
})

test('the day it can be ready comes last', () => {
  const promise = { ready: { day: '2026-12-11' } }
  expect(thumbWords(quote({ promise }), margin)).toMatch(/^12\.4 h, margin 30\.23 %, ready Fri 11 Dec/)
})

test.each([
  [undefined],
  [{ rate: null, words: [] }],
  [{ rate: '0.3023', words: ['Cost not known: brakes'] }],
])('a margin that is not known, or not of everything, is left out', (known) => {
  expect(thumbWords(quote(), known)).toBe('12.4 h')
})

test('one short stop is told itself', () => {
  expect(thumbWords(quote({ stops: ['Choose the customer.'] }), margin)).toBe('Choose the customer.')
})

test('several stops are counted, and so is one too long to read there', () => {
  expect(thumbWords(quote({ stops: ['a', 'b'] }))).toBe('2 things to settle before it can be sent')
  expect(thumbWords(quote({ stops: ['a'.repeat(60)] }))).toBe('1 thing to settle before it can be sent')
})

test('notices and what nobody has stated come before hours and margin, each sentence once', () => {
  expect(thumbWords(quote({ notices: [notice('a')] }), margin)).toBe('1 thing to settle')
  const all = { stops: ['a'], notices: [notice('a'), notice('b'), notice('b')], decide: [{ words: 'c' }] }
  expect(thumbWords(quote(all), margin)).toBe('3 things to settle')
})

test('a sent quote has nothing left to settle', () => {
  expect(thumbWords(quote({ editable: false, notices: [notice('a')] }), margin)).toBe(
    '12.4 h, margin 30.23 %',
  )
})
