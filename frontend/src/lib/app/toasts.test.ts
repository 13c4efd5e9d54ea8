import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { leave, tell, toasts } from './toasts.svelte'

beforeEach(() => vi.useFakeTimers())
afterEach(() => {
  for (const { id } of [...toasts]) leave(id, null)
  vi.useRealTimers()
})

test('a newer toast about one of the same lines takes the place of the older', () => {
  tell('Hose clamp: due Tuesday.', () => {}, ['a', 'b'])
  tell('O-ring: due Tuesday.', () => {}, ['c'])
  tell('Hose clamp: due Friday.', () => {}, ['b'])
  expect(toasts.map(({ words }) => words)).toEqual(['O-ring: due Tuesday.', 'Hose clamp: due Friday.'])
})

test('toasts without a subject are shown together', () => {
  tell('Link taken back.')
  tell('Link copied.')
  expect(toasts).toHaveLength(2)
})
