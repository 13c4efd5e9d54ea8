import { expect, test } from 'vitest'
import { refusalKey } from './refusal'

test('an empty field, half an e-mail address and a number out of range each have their own sentence', () => {
  expect(refusalKey({ valueMissing: true, typeMismatch: false })).toBe('field.missing')
  expect(refusalKey({ valueMissing: true, typeMismatch: false }, true)).toBe('field.unchosen')
  expect(refusalKey({ valueMissing: false, typeMismatch: true })).toBe('field.email')
  expect(refusalKey({ valueMissing: false, typeMismatch: false })).toBe('field.wrong')
})
