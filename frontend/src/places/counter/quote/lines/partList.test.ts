import { expect, test } from 'vitest'
import { isList } from './partList'

test.each([
  ['BI-NUT-10\t4', true],
  ['BI-NUT-10\nQF-4410', true],
  ['BI-NUT-10\n', false],
  ['BI-NUT-10 4', false],
])('%j is a list: %s', (text, list) => {
  expect(isList(text)).toBe(list)
})
