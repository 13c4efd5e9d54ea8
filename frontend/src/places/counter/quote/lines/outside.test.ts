import { expect, test } from 'vitest'
import { percentOf, share } from './outside'

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
