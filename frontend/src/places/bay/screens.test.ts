import { render } from 'svelte/server'
import { beforeEach, expect, test, vi } from 'vitest'
import { learn } from '../../lib/text'
import { bay } from '../../lib/words/bay'
import { ready } from '../../lib/words/ready'
import Bay from './Bay.svelte'
import Job from './Job.svelte'

// What the screens of the bay ask for, and what they draw of the answers: without a server and without a browser.
const asked = vi.hoisted(() => new Map<string, unknown>())
const answers = vi.hoisted((): Record<string, unknown> => ({}))

vi.mock('../../lib/resource.svelte', () => ({
  resource(path: string, how: () => unknown) {
    asked.set(path, how())
    return { data: answers[path], fresh: true, at: null, problem: null }
  },
  follow() {},
}))

learn(bay)
learn(ready)

const job = {
  id: 'a',
  number: 'J-1',
  state: 'accepted',
  customer: 'Ines',
  vehicle: 'Lark',
  plate: '',
  hours: '2.5',
  opened_at: '2026-02-02T10:00:00Z',
}
const work = { notices: [], operations: [], follow_ups: [], attributes: {}, capacities: {}, vin_tail: '' }
const list = { id: 'l', job_id: 'a', number: 'J-1', kits: ['TURBO'], counted: 3, lines: 7, state: 'open' }

beforeEach(() => {
  for (const path of Object.keys(answers)) delete answers[path]
  asked.clear()
})

/** The words on a screen. */
const words = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

test('the bay asks for the lists of the jobs that it shows', () => {
  answers.jobs = { items: [job, { ...job, id: 'b', number: 'J-2' }] }
  answers['pull-lists'] = { items: [list] }
  const said = words(render(Bay).body)
  expect(asked.get('jobs')).toEqual({ query: { state: 'open', limit: '200' } })
  expect(asked.get('pull-lists')).toEqual({ query: { jobs: 'open', limit: '200' } })
  expect(said).toMatch(
    /J-1 Lark Ines.* TURBO: 3 of 7 lines of the pull list counted.* J-2 Lark.* no pull list/,
  )
})

test('a job asks for its own list', () => {
  answers['jobs/{id}'] = { ...job, ...work }
  answers['pull-lists'] = { items: [list] }
  const said = words(render(Job, { props: { id: 'a' } }).body)
  expect(asked.get('pull-lists')).toEqual({ query: { job: 'a' } })
  expect(said).toContain('Pull list J-1 TURBO 3 of 7 lines counted')
})
