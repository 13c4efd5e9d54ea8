import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'
import type { Choice, Option } from './choices'

learn(words)
let requests: { method: string; url: string; body: unknown; match: string | null }[]
vi.stubGlobal('document', { cookie: '' })
vi.stubGlobal(
  'Request',
  class extends Request {
    constructor(input: string, init?: RequestInit) {
      super(new URL(input, 'http://shop.test'), init)
    }
  },
)
vi.stubGlobal('fetch', async (request: Request) => {
  const { method, headers } = request
  const text = await request.text()
  const url = new URL(request.url).pathname.replace('/api/v1/shops/fell/quotes/q', '')
  requests.push({ method, url, body: text ? JSON.parse(text) : undefined, match: headers.get('If-Match') })
  return Response.json({}, { headers: { ETag: '"2"' } })
})

const choices = await import('./choices')
const { session } = await import('../../../../lib/app/session.svelte')

const option = (id: string, preselected = false, lines: string[] = []) =>
  ({
    id,
    title: id,
    preselected,
    lines: lines.map((line) => ({ line, title: `line ${line}` })),
  }) as unknown as Option
const pads = (...options: Option[]): Choice => ({ id: 'pads', title: 'Brake pads', take: 'one', options })
const quote = (...all: Choice[]) =>
  ({
    id: 'q',
    kits: [{ line: 'k', title: 'Kit' }],
    extras: [{ line: 'r', title: 'Road pads' }],
    outside: [{ line: 'o', title: 'Calibration' }],
    choices: all,
  }) as unknown as Quote

beforeEach(() => {
  session.enter('fell')
  requests = []
})

async function sent(change: Change | null | undefined): Promise<unknown> {
  await change?.send('"1"', quote())
  return requests.pop()
}

test('each line stands once, with the option that it is part of', () => {
  const lines = choices.linesOf(quote(pads(option('road', true, ['r']), option('fast', false, ['f']))))
  expect(lines.map(({ line, option }) => [line, option])).toEqual([
    ['k', null],
    ['r', 'road'],
    ['o', null],
    ['f', 'fast'],
  ])
})

test('options are typed one a line', () => {
  expect(choices.optionsTyped(' Road pads \n\nFast-road pads\n').map(({ title }) => title)).toEqual([
    'Road pads',
    'Fast-road pads',
  ])
})

test('a choice that was removed comes back with its options and their lines', async () => {
  const removed = choices.removeChoice(pads(option('road', true, ['r']), option('fast')))
  expect(await sent(removed)).toMatchObject({ method: 'DELETE', url: '/choices/pads', match: '"1"' })
  expect(await sent(removed.undo?.(quote(), quote()))).toMatchObject({
    method: 'POST',
    url: '/choices',
    body: {
      title: 'Brake pads',
      take: 'one',
      options: [
        { title: 'road', preselected: true, lines: ['r'] },
        { title: 'fast', preselected: false, lines: [] },
      ],
    },
  })
})

test('what was added is removed again', async () => {
  const added = choices.addOption('pads', { title: 'fast', preselected: false, lines: [] })
  const back = added.undo?.(quote(pads(option('road'))), quote(pads(option('road'), option('fast'))))
  expect(await sent(back)).toMatchObject({ method: 'DELETE', url: '/options/fast' })
})

test('taking back a proposal of one proposes the option of before', async () => {
  const proposal = choices.propose(pads(option('road', true), option('fast')), option('fast'), true)
  const back = proposal.undo?.(quote(), quote())
  expect(await sent(back)).toMatchObject({
    method: 'PATCH',
    url: '/options/road',
    body: { preselected: true },
  })
})

test('taking back a proposal of any leaves it out again', async () => {
  const extras: Choice = { ...pads(option('wax')), take: 'any' }
  const back = choices.propose(extras, option('wax'), true).undo?.(quote(), quote())
  expect(await sent(back)).toMatchObject({ url: '/options/wax', body: { preselected: false } })
})

test('a line goes back to where it was', async () => {
  const moved = choices.moveLine({ line: 'r', title: 'Road pads', option: 'road' }, null)
  expect(await sent(moved)).toMatchObject({ url: '/lines/r', body: { option: null } })
  expect(await sent(moved.undo?.(quote(), quote()))).toMatchObject({
    url: '/lines/r',
    body: { option: 'road' },
  })
})
