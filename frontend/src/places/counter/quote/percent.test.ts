import { expect, test } from 'vitest'
import { percent } from './percent'

test.each([
  ['0.3023', '30.23'],
  ['0.18', '18'],
  ['0.3200', '32'],
  ['0.0450', '4.5'],
  ['0.0005', '0.05'],
  ['1', '100'],
  ['-0.1250', '\u221212.5'],
  ['0', '0'],
])('%s is %s per cent, to the last digit', (rate, shown) => {
  expect(percent(rate)).toBe(shown)
})
