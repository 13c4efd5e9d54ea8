import { expect, test } from 'vitest'
import { after, complete } from './typedFigure'

const typed = (keys: string, places: number) =>
  [...keys].reduce((text, key) => after(text, key, { whole: 4, places }), '')

test.each([
  ['118.6', 3, '118.6'],
  ['118,6', 3, '118.6'],
  ['.5', 3, '0.5'],
  ['05', 0, '5'],
  ['1.2.34567', 3, '1.234'],
  ['123456', 0, '1234'],
  ['2.5', 0, '25'],
])('typing %s with %i places reads %s', (keys, places, reads) => {
  expect(typed(keys, places)).toBe(reads)
})

test('Backspace removes the last key, and a final point is not part of a figure', () => {
  expect(after('5.2', 'Backspace', { whole: 4, places: 1 })).toBe('5.')
  expect([complete('5.'), complete('5.2'), complete('')]).toEqual(['5', '5.2', ''])
})
