import { expect, test } from 'vitest'
import words from '../../../lib/messages/en-GB/agreed.ftl'
import { learn } from '../../../lib/text/text'
import { begun, dateWords, type ToldDates } from './toldDate'

learn(words)
const friday = { day: '2026-12-11', half: 'afternoon' as const, words: 'Fri 11 Dec, afternoon' }
const monday = { day: '2026-12-14', half: 'morning' as const, words: 'Mon 14 Dec, morning' }
const dates = (changed: Partial<ToldDates>): ToldDates => ({
  job: '1',
  open: true,
  moved: false,
  counted_on: friday,
  expected: friday,
  no_date: null,
  draft: 'We now expect your vehicle to be ready Mon 14 Dec, morning.',
  notes: [],
  address: '',
  told: [],
  ...changed,
})

test.each([
  [{}, 'The customer was told Fri 11 Dec, afternoon, and that is still expected.'],
  [
    { moved: true, expected: monday },
    'The customer was told Fri 11 Dec, afternoon. Now expected: Mon 14 Dec, morning.',
  ],
  [
    { moved: true, expected: null, no_date: 'No date: ask Quillfen.' },
    'The customer was told Fri 11 Dec, afternoon. No date: ask Quillfen.',
  ],
  [
    { moved: true, counted_on: null, expected: monday },
    'The customer was given no date. Now expected: Mon 14 Dec, morning.',
  ],
  [{ counted_on: null, expected: null }, 'The customer was given no date.'],
])('the sentence says what the customer counts on and what is expected: %#', (changed, sentence) => {
  expect(dateWords(dates(changed))).toBe(sentence)
})

test('the form begins with what is expected, and without a day where nothing is', () => {
  const draft = 'We now expect your vehicle to be ready Mon 14 Dec, morning.'
  expect(begun(dates({ expected: monday }))).toEqual({ day: '2026-12-14', half: 'morning', words: draft })
  expect(begun(dates({ expected: null })).day).toBe('')
})
