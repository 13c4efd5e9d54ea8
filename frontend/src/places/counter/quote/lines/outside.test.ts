import { expect, test } from 'vitest'
import words from '../../../../lib/messages/en-GB/outside.ftl'
import { learn } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'
import { type KitsWork, percentOf, share, termsFor, turnaround } from './outside'

learn(words)

test.each([
  ['17.5', '0.175'],
  ['17,5', '0.175'],
  ['15', '0.15'],
  ['5', '0.05'],
  ['120', '1.20'],
  ['', '0'],
])('a markup of %s percent goes out as the share %s', (typed, sent) => {
  expect(share(typed)).toBe(sent)
})

test('what is no number goes to the server as it is', () => {
  expect(share('a lot')).toBe('a lot')
})

test.each([
  ['0.175', '17.5'],
  ['0.15', '15'],
  ['0', '0'],
  ['1.2', '120'],
])('a share of %s reads %s percent', (share, read) => {
  expect(percentOf(share)).toBe(read)
})

const quote = {
  labour: { operations: [{ key: 'labour:SETUP', title: 'Set-up' }] },
} as unknown as Quote
const work = {
  line: 'line-1',
  kit: 'Turbocharger kit',
  title: 'Calibration',
  days: 3,
  starts_after: 'SETUP',
  needed_by: 'TURBO',
} as KitsWork

test('a step that is not on the quote is left out of its terms, and the kit too', () => {
  expect(termsFor(quote, work)).toEqual({
    title: 'Calibration',
    days: 3,
    starts_after: 'SETUP',
    needed_by: '',
  })
})

test.each([
  [work, '3 working days, after: Set-up'],
  [{ ...work, days: 1, starts_after: '' }, '1 working day from acceptance'],
  [{ ...work, starts_after: 'GONE' }, '3 working days from acceptance'],
  [{ ...work, days: null }, 'No turnaround is named, so the quote would have no date.'],
])('its turnaround begins at a step of the quote', (row, says) => {
  expect(turnaround(quote, row)).toBe(says)
})
