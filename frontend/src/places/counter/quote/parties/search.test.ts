import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import type { Problem } from '../../../../lib/api/client'
import { Search } from '../../../../lib/app/search.svelte'
import { Kits } from '../lines/kitSearch.svelte'

const ok = <T>(data: T, next: string | null = null) => ({
  ok: true as const,
  status: 200,
  data,
  etag: null,
  next,
})
const wait = (ms: number) => new Promise((done) => setTimeout(done, ms))

beforeEach(() => void vi.useFakeTimers())
afterEach(() => void vi.useRealTimers())

test('text typed in one go is searched once', async () => {
  const look = vi.fn(async (q: string) => ok({ items: [q] }))
  const search = new Search(look)
  for (const text of ['o', 'ol', 'old ']) search.type(text)
  await vi.advanceTimersByTimeAsync(200)
  expect(look.mock.calls).toEqual([['old']])
  expect([search.query, search.items]).toEqual(['old', ['old']])
})

test('a slow answer to an older question is left out', async () => {
  const search = new Search(async (q: string) => {
    await wait(q === 'old' ? 500 : 10)
    return ok({ items: [q] })
  })
  void search.find('old')
  void search.find('oldacre')
  await vi.advanceTimersByTimeAsync(600)
  expect(search.items).toEqual(['oldacre'])
})

test('a refusal empties the list and stays in sight', async () => {
  const problem = { title: 'no' } as Problem
  const search = new Search<string>(async () => ({ ok: false, problem }))
  await search.find('x')
  expect([search.items, search.problem]).toEqual([[], problem])
})

test('kits of another vehicle take the place of the first one\u2019s, a next page stands behind', async () => {
  const kit = (id: string) => ({ id }) as Kits['items'][number]
  const look = vi.fn(async ({ vehicle, cursor }: { vehicle?: string; cursor?: string }) => {
    await wait(vehicle === 'slow' ? 500 : 10)
    return ok({ items: [kit(`${vehicle}${cursor ?? ''}`)] }, cursor ? null : '2')
  })
  const kits = new Kits(look as never)
  void kits.find('', 'slow')
  void kits.find('', 'car')
  await vi.advanceTimersByTimeAsync(600)
  expect([kits.items.map(({ id }) => id), kits.next]).toEqual([['car'], '2'])
  void kits.find('', 'car', kits.next as string)
  await vi.advanceTimersByTimeAsync(50)
  expect([kits.items.map(({ id }) => id), kits.next, kits.looking]).toEqual([['car', 'car2'], null, false])
})
