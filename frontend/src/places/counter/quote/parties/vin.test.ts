import { afterEach, beforeEach, expect, test, vi } from 'vitest'
import * as client from '../../../../lib/api/client'
import { Vin, type VinChecked } from './vin.svelte'

const GOOD = '0TB1MZW00A7YW24HU'
const BAD = 'OTB1MZW00A7YW24HU'
const bad: VinChecked = { status: 'malformed', suggestion: GOOD, words: `Did you mean ${GOOD}?`, how: null }
const good: VinChecked = { status: 'valid', suggestion: null, words: 'right', how: null }
const urls: string[] = []

beforeEach(() => {
  vi.useFakeTimers()
  urls.length = 0
  vi.spyOn(client, 'read').mockImplementation((async (
    _path: string,
    { query }: { query: { vin: string } },
  ) => {
    urls.push(query.vin)
    return { ok: true, data: query.vin === BAD ? bad : good }
  }) as unknown as typeof client.read)
})
afterEach(() => {
  vi.useRealTimers()
  vi.restoreAllMocks()
})

test('it is checked once the hand rests, not with every key', async () => {
  const vin = new Vin()
  for (const text of [BAD.slice(0, 3), BAD.slice(0, 9), BAD]) vin.type(text)
  expect(urls).toEqual([])
  await vi.runAllTimersAsync()
  expect([urls, vin.doubt]).toEqual([[BAD], bad])
})

test('the doubt and what it offers are gone with the next key', async () => {
  const vin = new Vin()
  vin.type(BAD)
  await vi.runAllTimersAsync()
  vin.type(GOOD)
  expect(vin.doubt).toBeNull()
  await vi.runAllTimersAsync()
  expect(vin.doubt).toBeNull()
})

test('an answer to what no longer stands there is not shown', async () => {
  const vin = new Vin()
  vin.type(BAD)
  const looked = vin.look()
  vin.type(GOOD)
  expect(await looked).toBe(false)
  expect(vin.doubt).toBeNull()
})

test('who saves at once is shown the doubt first; who has seen it saves', async () => {
  const vin = new Vin()
  vin.type(BAD)
  expect(await vin.look()).toBe(true)
  expect(await vin.look()).toBe(false)
  expect(urls).toEqual([BAD])
})

test('one that was saved as written is not checked again, and its doubt goes on showing', async () => {
  const vin = new Vin(BAD, bad)
  expect([await vin.look(), vin.doubt, urls]).toEqual([false, bad, []])
})

test('without an answer there is nothing to see first', async () => {
  vi.mocked(client.read).mockResolvedValue({ ok: false, problem: {} } as never)
  const vin = new Vin()
  vin.type(BAD)
  expect(await vin.look()).toBe(false)
})
