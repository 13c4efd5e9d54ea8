import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import { Finder, type Hit } from './finder.svelte'

const hit = (title: string) => ({ id: title, title }) as Hit
const answers = (title: string) => ({
  ok: true as const,
  status: 200,
  data: { items: [hit(title)] },
  etag: null,
  next: null,
})

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

test('it asks once for what was typed in one go', async () => {
  const look = vi.fn(async (q: string) => answers(q))
  const finder = new Finder(look)
  for (const text of ['ol', 'old', ' olda']) finder.type(text)
  await vi.advanceTimersByTimeAsync(200)
  expect(look.mock.calls).toEqual([['olda']])
  expect(finder.query).toBe('olda')
  expect(finder.items).toEqual([hit('olda')])
})

test('a slow answer to an older question is left out', async () => {
  const finder = new Finder(async (q) => {
    await new Promise((done) => setTimeout(done, q === 'old' ? 500 : 10))
    return answers(q)
  })
  finder.type('old', true)
  finder.type('oldacre', true)
  await vi.advanceTimersByTimeAsync(600)
  expect(finder.items).toEqual([hit('oldacre')])
  expect(finder.looking).toBe(false)
})

test('an emptied box shows nothing, whatever still comes', async () => {
  const finder = new Finder(async (q) => answers(q))
  finder.type('old', true)
  finder.type('')
  await vi.advanceTimersByTimeAsync(10)
  expect(finder.items).toEqual([])
  expect(finder.query).toBeNull()
})
