import '../quoteWords'
import { expect, test } from 'vitest'
import { savingWords } from './saving'

const saving = (saves_hours: string, saves_amount: string) => savingWords({ saves_hours, saves_amount }, 2)

test('a kit saves its hours and its amount', () => {
  expect(saving('2.9', '1662.38')).toBe('Without it: −2.9 h, −1,662.38')
})

test('a figure that stays as it is goes unmentioned', () => {
  expect(saving('0.0', '84')).toBe('Without it: −84.00')
  expect(saving('2.9', '0.00')).toBe('Without it: −2.9 h, the same total')
})

test('a kit without a price and without hours changes nothing', () => {
  expect(saving('0.0', '0.00')).toBe('Without it: the same hours, the same total')
})

test('a quote that would be dearer without the kit has a plus', () => {
  expect(saving('2.9', '-12.5')).toBe('Without it: −2.9 h, +12.50')
})
