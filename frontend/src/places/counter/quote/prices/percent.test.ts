import { expect, test } from 'vitest'
import { percent } from './percent'

test.each([
  ['0.3023', '30.23'],
  ['0.18', '18.00'],
  ['0.3200', '32.00'],
  ['0.0450', '4.50'],
  ['0.0005', '0.05'],
  ['1', '100.00'],
  ['-0.1250', '\u221212.50'],
  ['0', '0.00'],
])('%s is %s per cent, with two decimals', (rate, words) => {
  expect(percent(rate)).toBe(words)
})
