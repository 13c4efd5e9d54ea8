import { afterEach, expect, test } from 'vitest'
import { clock, dated, day } from './dates'
import { amount, plain } from './decimals'
import { setLanguage } from './language'
import { fill } from './text'

afterEach(() => setLanguage())

test('numbers have the signs of the language, and every digit', () => {
  setLanguage('de')
  expect(amount('-15692.40')).toBe('\u221215.692,40')
  expect(plain('1.80')).toBe('1,8')
  expect(plain('1000')).toBe('1.000')
  expect(fill('{n}', { n: 1200 })).toBe('1.200')
})

test('days have the order of the language; hours are counted to 24', () => {
  setLanguage('en-US')
  expect(day('2026-09-02', undefined, new Date('2026-01-01'))).toBe('Wed Sep 2')
  expect(dated('2026-09-02')).toBe('Wed Sep 2, 2026')
  expect(clock('2026-09-02T15:05:00Z', 'UTC')).toBe('15:05')
})

test('plurals are those of the language', () => {
  setLanguage('pl')
  const lines = (_: object, plural: (n: string | number) => string) => [1, 2, 5, 22].map(plural).join(' ')
  expect(fill(lines, {})).toBe('one few many few')
})

test('without a language it is our own', () => {
  setLanguage('de')
  setLanguage(undefined)
  expect(amount('15692.40')).toBe('15,692.40')
})
