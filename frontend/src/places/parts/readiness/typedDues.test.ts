import 'fake-indexeddb/auto'
import { expect, test } from 'vitest'
import { keepDue, keptDue } from './typedDues'

const typed = { day: '2026-12-02', time: '10:00' }

test('a day is kept for its lines, whatever their order, and for no others', async () => {
  await keepDue('list', ['b', 'a'], typed)
  expect(await keptDue('list', ['a', 'b'])).toEqual(typed)
  expect(await keptDue('list', ['a'])).toBeUndefined()
  expect(await keptDue('other', ['a', 'b'])).toBeUndefined()
})

test('once it is sent nothing is kept', async () => {
  await keepDue('list', ['c'], typed)
  await keepDue('list', ['c'], { day: '', time: '' })
  expect(await keptDue('list', ['c'])).toBeUndefined()
})
