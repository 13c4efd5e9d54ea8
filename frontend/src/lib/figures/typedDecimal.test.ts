import { expect, test } from 'vitest'
import { typed } from './typedDecimal'

test.each([
  ['2,5', '2.5'],
  ['0,125', '0.125'],
  ['2,842.42', '2842.42'],
  ['1,250,000', '1250000'],
  ['2,700', '2,700'],
  [' 120 ', '120'],
])('%j is typed for %s', (text, figure) => {
  expect(typed(text)).toBe(figure)
})
