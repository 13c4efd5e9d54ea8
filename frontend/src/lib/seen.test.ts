import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { whileSeen } from './seen'

const page = { visibilityState: 'visible' }
vi.stubGlobal('document', page)

beforeEach(() => {
  vi.useFakeTimers()
  page.visibilityState = 'visible'
})
afterEach(() => vi.useRealTimers())

test('it goes on every twenty seconds until it is stopped', () => {
  const act = vi.fn()
  const stop = whileSeen(act)
  vi.advanceTimersByTime(19_999)
  expect(act).not.toHaveBeenCalled()
  vi.advanceTimersByTime(40_001)
  expect(act).toHaveBeenCalledTimes(3)
  stop()
  vi.advanceTimersByTime(60_000)
  expect(act).toHaveBeenCalledTimes(3)
})

test('a page that nobody sees asks for nothing', () => {
  const act = vi.fn()
  const stop = whileSeen(act)
  page.visibilityState = 'hidden'
  vi.advanceTimersByTime(60_000)
  expect(act).not.toHaveBeenCalled()
  page.visibilityState = 'visible'
  vi.advanceTimersByTime(20_000)
  expect(act).toHaveBeenCalledOnce()
  stop()
})
