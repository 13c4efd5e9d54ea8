import { beforeEach, expect, test, vi } from 'vitest'
import { ChosenStep, namedStep } from './chosenStep.svelte'

const device = vi.hoisted(() => new Map<string, unknown>())
vi.mock('../../../lib/device/database', () => ({
  recall: async (key: string) => device.get(key),
  remember: async (key: string, value: unknown) => void device.set(key, value),
}))

beforeEach(() => device.clear())

async function opened(job: string, named?: string) {
  const chosen = new ChosenStep()
  await chosen.open(job, named)
  return chosen
}

test('the step in hand is kept on this phone, job by job', async () => {
  const chosen = await opened('a')
  expect(chosen.name).toBeUndefined()
  chosen.choose('step-14')
  expect(chosen.name).toBe('step-14')
  expect((await opened('a')).name).toBe('step-14')
  expect((await opened('b')).name).toBeUndefined()
})

test('the step that the address names goes before the one that was kept', async () => {
  ;(await opened('a')).choose('step-14')
  expect((await opened('a', 'step-3')).name).toBe('step-3')
})

test('what is chosen while the phone still looks for the kept step stands', async () => {
  ;(await opened('a')).choose('step-14')
  const chosen = new ChosenStep()
  const opening = chosen.open('a', undefined)
  chosen.choose('step-2')
  await opening
  expect(chosen.name).toBe('step-2')
})

test('what is shown while the phone still looks for the kept step does not take its place', async () => {
  ;(await opened('a')).choose('step-14')
  const chosen = new ChosenStep()
  const opening = chosen.open('a', undefined)
  chosen.stay('step-1')
  await opening
  expect(chosen.name).toBe('step-14')
  const fresh = await opened('b')
  fresh.stay('step-1')
  fresh.stay('step-2')
  expect(fresh.name).toBe('step-1')
  expect((await opened('b')).name).toBeUndefined()
})

test('an address names a step', () => {
  expect([namedStep('#step-14'), namedStep('#step-'), namedStep('#about'), namedStep('')]).toEqual([
    'step-14',
    undefined,
    undefined,
    undefined,
  ])
})
