import { expect, test } from 'vitest'
import { pressed, type ScreenKey } from './screenKeys'

const keys: ScreenKey[] = [{ key: 'n', says: 'New quote', act: () => {} }]
const event = (key: string, more: object = {}) => ({
  key,
  ctrlKey: false,
  altKey: false,
  metaKey: false,
  ...more,
})

test.each([
  ['n', {}, true],
  ['N', {}, true],
  ['x', {}, false],
  ['n', { ctrlKey: true }, false],
  ['n', { metaKey: true }, false],
  ['n', { altKey: true }, false],
])('%s with %o is a key of the screen: %s', (key, more, acts) => {
  expect(Boolean(pressed(keys, event(key, more)))).toBe(acts)
})
