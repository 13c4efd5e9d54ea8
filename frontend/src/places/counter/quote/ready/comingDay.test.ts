import { expect, test } from 'vitest'
import { closedDay, pastWords } from './comingDay'

type QuoteFields = Parameters<typeof closedDay>[0]
const quote = (here_from: string | null, notices: object[] = []) =>
  ({
    here_from,
    notices,
    promise: {
      bring: { day: '2026-12-07', at: '2026-12-07T07:00:00Z', words: '' },
    },
  }) as unknown as QuoteFields

test('a closed day names the day from which the vehicle counts as here', () => {
  const day = closedDay(quote('2026-12-05'))
  expect(day?.day).toMatch(/^Sat 5 Dec/)
  expect(day?.from).toMatch(/^Mon 7 Dec/)
})

test.each([['2026-12-07'], [null]])('%s has no such message', (day) => {
  expect(closedDay(quote(day))).toBeNull()
})

test('nor of a vehicle that is here', () => {
  const here = quote('2026-12-05')
  expect(closedDay({ ...here, promise: { ...here.promise, bring: null } } as typeof here)).toBeNull()
})

test('nor where there is no date at all', () => {
  expect(closedDay({ ...quote('2026-12-05'), promise: null })).toBeNull()
})

test('a day that is over has the sentence of the server', () => {
  const over = { code: 'here_from_past', about: '', words: 'It was to come on Mon 1 Jan.' }
  expect(pastWords(quote('2024-01-01', [{ ...over, code: 'other' }, over]))).toBe(over.words)
  expect(pastWords(quote('2026-12-05'))).toBeNull()
})
