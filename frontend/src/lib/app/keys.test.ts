import { expect, test } from 'vitest'
import { isTyping } from './keys'

test.each([
  [{ tagName: 'INPUT' }, true],
  [{ tagName: 'TEXTAREA' }, true],
  [{ tagName: 'SELECT' }, true],
  [{ tagName: 'DIV', isContentEditable: true }, true],
  [{ tagName: 'BUTTON' }, false],
  [{ tagName: 'BODY' }, false],
  [null, false],
])('a key pressed in %o is typed: %s', (target, typing) => {
  expect(isTyping(target as unknown as EventTarget | null)).toBe(typing)
})
