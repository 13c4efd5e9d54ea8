import { afterEach, expect, test } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { setLanguage } from '../../../../lib/text/language'
import { learn } from '../../../../lib/text/text'
import { barWords } from './barWords'

learn(words)

afterEach(() => setLanguage())

type QuoteFields = Parameters<typeof barWords>[0]
const quote = (more: object = {}) =>
  ({
    editable: true,
    stops: [],
    to_settle: [],
    labour: { hours: '12.4' },
    ...more,
  }) as unknown as QuoteFields
const open = (...words: string[]) =>
  words.map((sentence) => ({ place: 'notices', words: sentence, stops: true }))
const promise = { ready: { day: '2026-12-11' } }

test('where all is settled it tells the hours, and the day it can be ready', () => {
  expect(barWords(quote())).toBe('12.4 h')
  expect(barWords(quote({ promise }))).toMatch(/^12\.4 h, ready Fri 11 Dec/)
})

test('while something is open its hours are a range', () => {
  expect(barWords(quote({ undecided: { hours: '12.4 to 14.1' } }))).toBe('12.4 to 14.1 h')
})

test('it names no day where each price has its own', () => {
  const undecided = (...days: string[]) => ({
    hours: '12.4 to 14.1',
    prices: days.map((ready) => ({ words: ready, ready, unfit: null })),
  })
  const same = undecided('Fri 11 Dec, morning', 'Fri 11 Dec, morning')
  expect(barWords(quote({ promise, undecided: same }))).toMatch(/ready Fri 11 Dec/)
  const differing = undecided('Fri 11 Dec, morning', 'Mon 14 Dec, morning')
  expect(barWords(quote({ promise, undecided: differing }))).toBe('12.4 to 14.1 h')
})

test('its hours have the decimal sign of the language', () => {
  setLanguage('de')
  expect(barWords(quote())).toBe('12,4 h')
})

test('a day that holds only for a start within the withdrawal period says so', () => {
  const early = { ...promise, withdrawal: { first_day: '2026-12-16', early: true, words: '' } }
  expect(barWords(quote({ promise: early }))).toMatch(/^12\.4 h, ready Fri 11 Dec.* if started early$/)
  const counted = { ...early, withdrawal: { ...early.withdrawal, early: false } }
  expect(barWords(quote({ promise: counted }))).not.toMatch(/early/)
})

test('the day is shown also while something is unsettled', () => {
  expect(
    barWords(quote({ promise, stops: ['Choose the customer.'], to_settle: open('Choose the customer.') })),
  ).toMatch(/^Choose the customer, ready Fri 11 Dec/)
  expect(barWords(quote({ promise, stops: ['a', 'b'], to_settle: open('a', 'b') }))).toMatch(
    /^2 things to settle, ready Fri 11 Dec/,
  )
})

test('several stops are counted, and so is one too long to read there', () => {
  expect(barWords(quote({ stops: ['a', 'b'], to_settle: open('a', 'b') }))).toBe('2 things to settle')
  expect(barWords(quote({ stops: ['a'.repeat(60)], to_settle: open('a'.repeat(60)) }))).toBe(
    '1 thing to settle',
  )
})

test('what does not keep it from being sent comes before the hours too', () => {
  expect(barWords(quote({ to_settle: open('a') }))).toBe('1 thing to settle')
  expect(barWords(quote({ stops: ['a'], to_settle: open('a', 'b', 'c') }))).toBe('3 things to settle')
})

test('a sent quote has nothing left to settle', () => {
  expect(barWords(quote({ editable: false, to_settle: open('a') }))).toBe('12.4 h')
})
