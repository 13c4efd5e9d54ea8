import { expect, test } from 'vitest'
import { presentRefusal, refusalKey } from './refusal'

test('an empty field, half an e-mail address and a number out of range each have their own sentence', () => {
  expect(refusalKey({ valueMissing: true, typeMismatch: false, patternMismatch: false })).toBe(
    'field.missing',
  )
  expect(refusalKey({ valueMissing: true, typeMismatch: false, patternMismatch: false }, 'list')).toBe(
    'field.unchosen',
  )
  expect(refusalKey({ valueMissing: true, typeMismatch: false, patternMismatch: false }, 'date')).toBe(
    'field.day_missing',
  )
  expect(refusalKey({ valueMissing: false, typeMismatch: true, patternMismatch: false })).toBe('field.email')
  expect(refusalKey({ valueMissing: false, typeMismatch: false, patternMismatch: false })).toBe('field.wrong')
  expect(refusalKey({ valueMissing: false, typeMismatch: false, patternMismatch: true })).toBe('field.digits')
})

test('the refusal of the present value is shown before that of the last request', () => {
  const ofBrowser = { value: '84,2l5', words: 'Check what you entered.' }
  expect(presentRefusal('84,2l5', ofBrowser, 'It cannot run back.')).toBe('Check what you entered.')
  expect(presentRefusal('84,215', ofBrowser, 'It cannot run back.')).toBe('It cannot run back.')
})
