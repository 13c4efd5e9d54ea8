import { expect, test } from 'vitest'
import { kindsOf, type OutsideWork, stampOf } from './outsideWork'

const work = (state: OutsideWork['state']) => ({ state, undo: 'e7' }) as OutsideWork

test.each([
  ['proposed', 'not_sent', ['sent', 'back']],
  ['sent', 'sent', ['back', 'asked', 'undone']],
  ['late', 'late', ['back', 'asked', 'undone']],
  ['back', 'come_back', ['sent', 'undone']],
] as const)('work that is %s has the stamp %s and its own buttons', (state, stamp, kinds) => {
  expect(stampOf(work(state))).toBe(stamp)
  expect(kindsOf(work(state), 'parts')).toEqual(kinds)
})

test("a colleague's entry has no button to undo it", () => {
  expect(kindsOf({ ...work('back'), undo: null }, 'parts')).toEqual(['sent'])
})

test('a technician reads it and records nothing', () => {
  expect(kindsOf(work('sent'), 'technician')).toEqual([])
  expect(kindsOf(work('sent'), 'manager')).not.toEqual([])
})
