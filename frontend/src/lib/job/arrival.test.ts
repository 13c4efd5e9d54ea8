import { expect, test } from 'vitest'
import { isSame, isWhole } from './arrival'

test('a year that is being typed waits until the field is left', () => {
  expect(isWhole('0002-12-09', false)).toBe(false)
  expect(isWhole('0002-12-09', true)).toBe(true)
  expect(isWhole('2026-12-09', false)).toBe(true)
  expect(isWhole('', false)).toBe(true)
})

test('the tick and the day are compared', () => {
  const nothing = { here: false, here_from: null }
  expect(isSame(nothing, { ...nothing })).toBe(true)
  expect(isSame(nothing, { here: true, here_from: null })).toBe(false)
  expect(isSame(nothing, { here: false, here_from: '2026-12-09' })).toBe(false)
})
