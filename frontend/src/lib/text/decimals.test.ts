import { expect, test } from 'vitest'
import { amount, isNothing, plain, signed, tenths } from './decimals'

test.each([
  ['15692.40', 2, '15,692.40'],
  ['0.00', 2, '0.00'],
  ['1234567', 0, '1,234,567'],
  ['0', 0, '0'],
  ['-24000', 0, '\u221224,000'],
  ['15692.405', 3, '15,692.405'],
  ['12', 3, '12.000'],
  ['12', 2, '12.00'],
  ['7.1250', 2, '7.1250'],
  ['-412.00', 2, '\u2212412.00'],
  ['123456789012345678901.10', 2, '123,456,789,012,345,678,901.10'],
  ['about ten', 2, 'about ten'],
])('%s with %d decimals is shown as %s', (value, exponent, words) => {
  expect(amount(value, exponent)).toBe(words)
})

test.each([
  ['1.80', '1.8'],
  ['5.0000', '5'],
  ['10', '10'],
  ['100.00', '100'],
  ['1200.50', '1,200.5'],
])('a quantity of %s is shown as %s', (value, words) => {
  expect(plain(value)).toBe(words)
})

test.each([
  ['10', '10.0'],
  ['1.80', '1.8'],
  ['10.00', '10.0'],
  ['0.25', '0.25'],
])('hours of %s are shown as %s', (value, words) => {
  expect(tenths(value)).toBe(words)
})

test.each([
  ['84.00', '+84.00'],
  ['-919.5', '\u2212919.50'],
  ['0.00', '0.00'],
])('a move of %s is shown as %s', (value, text) => {
  expect(signed(value, 2)).toBe(text)
})

test.each(['0', '0.0', '0.000', '-0.00'])('%s is nothing', (value) => {
  expect(isNothing(value)).toBe(true)
})

test.each(['0.1', '10', '0.001', '-0.1', ''])('%s is not nothing', (value) => {
  expect(isNothing(value)).toBe(false)
})
