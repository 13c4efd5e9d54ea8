import { beforeEach, expect, test, vi } from 'vitest'
import parts from '../../../lib/messages/en-GB/parts.ftl'
import { learn } from '../../../lib/text/text'

const write = vi.fn()
const flush = vi.fn()
const go = vi.fn()
vi.mock('../../../lib/api/client', () => ({ write: (...values: unknown[]) => write(...values) }))
vi.mock('../../../lib/counts/watch', () => ({ flush: () => flush() }))
vi.mock('../../../lib/app/router.svelte', () => ({ go: (to: string) => go(to) }))
vi.mock('../../../lib/app/session.svelte', () => ({ session: { slug: 'fell' } }))
const { Closing } = await import('./closing.svelte')
type Sheet = ConstructorParameters<typeof Closing>[0]

learn(parts)
const refusal = (status: number) => ({ ok: false, problem: { type: '', title: 'no', status, detail: '' } })
const sheet = (change: object = {}) =>
  ({ seq: 7, waiting: 0, whose: { list: 'l1' }, pull: vi.fn(), ...change }) as unknown as Sheet

beforeEach(() => void vi.resetAllMocks())

test('it closes as it stands on the screen and shows what differs', async () => {
  write.mockResolvedValue({ ok: true })
  await new Closing(sheet()).close()
  expect(write).toHaveBeenCalledWith('post', 'pull-lists/{id}/close', { id: 'l1' }, { seq: 7 })
  expect(go).toHaveBeenCalledWith('/fell/parts/list/l1/report')
})

test('with lines not counted it asks first', () => {
  const closing = new Closing(sheet())
  closing.press(3)
  expect([closing.asking, write.mock.calls]).toEqual([true, []])
})

test('what waits here is sent first, and without signal the list stays open', async () => {
  const closing = new Closing(sheet({ waiting: 2 }))
  await closing.close()
  expect(flush).toHaveBeenCalled()
  expect(write).not.toHaveBeenCalled()
  expect(closing.problem?.detail).toContain('2 counts have not been sent yet.')
})

test('when more has come it is read, and the person looks again', async () => {
  write.mockResolvedValue(refusal(409))
  const here = sheet()
  here.pull = vi.fn(async () => {
    here.seq = 9
    return null
  })
  const closing = new Closing(here)
  await closing.close()
  expect(closing.problem?.title).toBe('2 new counts have come in')
  expect([go.mock.calls, closing.going]).toEqual([[], false])
})

test('a list closed by somebody else shows the server’s refusal', async () => {
  write.mockResolvedValue(refusal(409))
  const closing = new Closing(sheet())
  await closing.close()
  expect(closing.problem?.title).toBe('no')
})
