import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'
import { answerRequests } from '../../../../lib/api/fakeNetwork'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'
import type { Choice, Option } from './choices'

learn(words)
let requests: { method: string; url: string; body: unknown; match: string | null }[]
vi.stubGlobal('document', { cookie: '' })
answerRequests(async (request: Request) => {
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
    labour: { operations: [{ title: 'Set-up' }, { title: 'Search', lines: ['w'] }] },
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
    ['w', null],
    ['f', 'fast'],
  ])
})

test('options are typed one a line', () => {
  expect(choices.optionsTyped(' Road pads \n\nFast-road pads\n').map(({ title }) => title)).toEqual([
    'Road pads',
    'Fast-road pads',
  ])
})

test('a choice is removed as it was seen', async () => {
  const removed = choices.removeChoice(pads(option('road', true, ['r']), option('fast')))
  expect(await sent(removed)).toMatchObject({ method: 'DELETE', url: '/choices/pads', match: '"1"' })
})

test('an option is proposed, or left out again', async () => {
  expect(await sent(choices.propose(option('fast'), true))).toMatchObject({
    method: 'PATCH',
    url: '/options/fast',
    body: { preselected: true },
  })
})

test('a line becomes part of an option, or of none', async () => {
  const moved = choices.moveLine({ line: 'r', title: 'Road pads', option: 'road' }, null)
  expect(await sent(moved)).toMatchObject({ url: '/lines/r', body: { option: null } })
})
