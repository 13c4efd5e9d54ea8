import { render } from 'svelte/server'
import { beforeEach, expect, test, vi } from 'vitest'
import bay from '../../lib/messages/en-GB/bay.ftl'
import ready from '../../lib/messages/en-GB/ready.ftl'
import { learn } from '../../lib/text/text'
import Job from './Job.svelte'
import JobList from './JobList.svelte'

// Tests the requests of the Bay's screens and the markup of the answers, without a server or a browser.
const requests = vi.hoisted(() => new Map<string, unknown>())
const answers = vi.hoisted((): Record<string, unknown> => ({}))

vi.mock('../../lib/api/resource.svelte', () => ({
  resource(path: string, how: () => unknown) {
    requests.set(path, how())
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
const kits = [{ code: 'TC35', title: 'Turbo kit' }]
const list = { id: 'l', job_id: 'a', number: 'J-1', kits, counted: 3, lines: 7, state: 'open' }

beforeEach(() => {
  for (const path of Object.keys(answers)) delete answers[path]
  requests.clear()
})

/** Returns the words of a screen. */
const words = (html: string) => html.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')

test('the bay asks for the lists of the jobs that it shows', () => {
  answers.jobs = { items: [job, { ...job, id: 'b', number: 'J-2' }] }
  answers['pull-lists'] = { items: [list] }
  const screen = words(render(JobList).body)
  expect(requests.get('jobs')).toEqual({ query: { state: 'open', limit: '200' } })
  expect(requests.get('pull-lists')).toEqual({ query: { jobs: 'open', limit: '200' } })
  expect(screen).toMatch(
    /J-1 Lark Ines.* Turbo kit: 3 of 7 lines of the pull list counted.* J-2 Lark.* no pull list/,
  )
})

test('a job that is in the bay stands before those that wait', () => {
  answers.jobs = { items: [job, { ...job, id: 'b', number: 'J-2', state: 'in_bay' }] }
  expect(words(render(JobList).body)).toMatch(/J-2 Lark.*J-1 Lark/)
})

test('a job asks for its own list', () => {
  answers['jobs/{id}'] = { ...job, ...work }
  answers['pull-lists'] = { items: [list] }
  const screen = words(render(Job, { props: { id: 'a' } }).body)
  expect(requests.get('pull-lists')).toEqual({ query: { job: 'a' } })
  expect(screen).toContain('Pull list J-1 Turbo kit 3 of 7 lines counted')
})

test('a job shows one step whole and the others folded by stage', () => {
  const step = {
    position: 1,
    code: 'A',
    title: 'Bumper off',
    skill: 'mechanic',
    stage: '1 Strip',
    hours: '1.50',
    after: [],
    kits: [],
    kit_titles: [],
    cautions: ['Two people lift it.'],
    torques: [{ fastener: 'Bolt M8', value: '21 N\u00b7m', kind: 'torque' }],
    why: [],
    wait_after: 0,
    how: null,
    done_at: null,
    done_by: '',
  }
  const second = {
    ...step,
    done_at: '2026-11-26T14:06:00Z',
    done_by: 'Oda Lind',
    position: 2,
    code: 'B',
    title: 'Grille off',
    cautions: [],
  }
  const third = {
    ...step,
    cautions: [],
    position: 3,
    code: 'C',
    title: 'Cooler on',
    stage: '2 Build',
    hold_point: true,
  }
  answers['jobs/{id}'] = { ...job, ...work, operations: [step, second, third] }
  answers['jobs/{id}/readiness'] = {
    steps: [
      { ...part(1, 'clear'), parts: [] },
      { ...part(2, 'clear'), parts: [] },
      { ...part(3, 'waits'), missing: ['1 of 1 O-ring missing'] },
    ],
    job: { id: 'a' },
    missing: [],
    notes: [],
    verdict: null,
    hold_before: null,
    cleared_hours: '3.0',
    total_hours: '4.5',
    counted: 3,
    lines: 7,
    how: { title: '' },
  }
  answers['pull-lists'] = { items: [list] }
  const screen = words(render(Job, { props: { id: 'a' } }).body)
  expect(screen).toMatch(
    /1\. Bumper off 1\.5 h step 1 of 3, Strip .*Two people lift it.*Bolt M8.*Record as done.*Next: Grille off/,
  )
  expect(screen).toContain(
    '1 Strip 2 steps: 1 to 2; 1 done; step in hand 3.0 h 2 Build 1 step: 3; 1 waiting 1.5 h',
  )
  expect(screen).not.toMatch(/O-ring|Previous/)
})

const part = (position: number, state: string) => ({
  position,
  state,
  words: '',
  hours: '1.5',
  parts: [],
  hazards: [],
  missing: [],
})
