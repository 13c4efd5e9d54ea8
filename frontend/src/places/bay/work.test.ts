import { expect, test } from 'vitest'
import { jobState, pause, runs, type Step, stageKits, stages, stageTitle, standsFrom, waitsFor } from './work'

const step = (
  position: number,
  code: string,
  stage: string,
  after: string[] = [],
  more: Partial<Step> = {},
) => ({ position, code, stage, after, cautions: [], torques: [], wait_after: 0, ...more }) as unknown as Step

const strip = step(1, 'A', '1 strip')
const bumper = step(2, 'B', '1 strip', ['A'])
const cooler = step(3, 'C', '2 cooler', ['B'])
const late = step(4, 'D', '1 strip', ['C', 'A'])
const steps = [strip, bumper, cooler, late]

test('a stage that comes back stands where its steps are', () => {
  expect(stages(steps).map((stage) => [stage.name, stage.steps.map((each) => each.code)])).toEqual([
    ['1 strip', ['A', 'B']],
    ['2 cooler', ['C']],
    ['1 strip', ['D']],
  ])
  expect(stages([])).toEqual([])
})

test('where each kit numbers its own stages the numbers are left out', () => {
  expect(stageTitle('2 strip', 3)).toBe('strip')
  expect(stageTitle('10. hand-over', 2)).toBe('hand-over')
  expect(stageTitle('2 strip', 1)).toBe('2 strip')
  expect([stageTitle('2', 2), stageTitle('', 2), stageTitle('12V check', 2)]).toEqual(['2', '', '12V check'])
})

test('a stage says which of several kits it is for', () => {
  const brakes = step(1, 'A', '2 strip', [], { kits: ['B'], kit_titles: ['Brakes'] })
  const both = step(2, 'B', '2 strip', [], { kits: ['A', 'B'], kit_titles: ['Turbo', 'Brakes'] })
  const old = step(3, 'C', '3 build', [], { kits: ['A'], kit_titles: [] })
  const all = [brakes, both, old]
  expect(stageKits({ name: '2 strip', steps: [brakes] }, all)).toEqual(['Brakes'])
  expect(stageKits({ name: '2 strip', steps: [brakes, both] }, all)).toEqual([])
  expect(stageKits({ name: '3 build', steps: [old] }, all)).toEqual([])
  expect(stageKits({ name: '2 strip', steps: [brakes] }, [brakes])).toEqual([])
})

test('the vehicle stands from the first step of each window', () => {
  const leave = { no_return: true }
  const sheet = [
    step(1, 'A', ''),
    step(2, 'B', '', [], leave),
    step(3, 'C', '', [], leave),
    step(4, 'D', '', [], { mobile_again: true }),
    step(5, 'E', '', [], leave),
    step(6, 'F', '', [], { ...leave, mobile_again: true }),
    step(7, 'G', '', [], { ...leave, mobile_again: true }),
  ]
  expect([...standsFrom(sheet)]).toEqual([2, 5, 7])
  expect([...standsFrom(sheet.slice(0, 1))]).toEqual([])
})

test('steps share a list until something stands between them', () => {
  const hot = step(3, 'C', '1', [], { cautions: ['Hot.'] })
  const stays = step(4, 'D', '1', [], { no_return: true })
  const tight = step(5, 'E', '1', [], { torques: [{ fastener: 'Plug', value: '35 N·m', kind: 'torque' }] })
  const last = step(6, 'F', '1')
  const all = [strip, bumper, hot, stays, tight, last]
  expect(runs(all).map((run) => run.map((each) => each.code))).toEqual([['A', 'B'], ['C'], ['D', 'E'], ['F']])
  expect(runs([step(1, 'A', '1', [], { wait_after: 5 }), bumper]).length).toBe(2)
  expect(runs([step(1, 'A', '1', [], { hold_point: true }), bumper]).length).toBe(2)
})

test('following the step above needs no words', () => {
  expect(waitsFor(strip, steps)).toEqual([])
  expect(waitsFor(bumper, steps)).toEqual([])
  expect(waitsFor(late, steps)).toEqual([1, 3])
})

test('a predecessor that is not in this job is left out', () => {
  expect(waitsFor(step(5, 'E', '3', ['gone', 'A']), steps)).toEqual([1])
})

test.each([
  [20, 'minutes', 20],
  [90, 'minutes', 90],
  [120, 'hours', 2],
  [1440, 'hours', 24],
  [2880, 'days', 2],
  [2940, 'hours', 49],
])('%d minutes are said in %s', (minutes, unit, n) => {
  expect(pause(minutes)).toEqual({ unit, n })
})

test.each([
  ['accepted', 'accepted'],
  ['waiting', 'waiting_for_parts'],
  ['ready', 'ready'],
  ['in_bay', 'in_the_bay'],
  ['in_checks', 'in_checks'],
  ['handed_over', 'handed_over'],
  ['called_off', 'called_off'],
  ['unheard of', undefined],
])('a job that is %s has the stamp %s', (state, stamp) => {
  expect(jobState(state)).toBe(stamp)
})
