import { expect, test } from 'vitest'
import { learn } from '../../lib/text'
import { bay } from '../../lib/words/bay'
import { ready } from '../../lib/words/ready'
import { inHand, jobState, kitOfAll, pause, runs, type Step, stageKits, stages, waitsFor } from './work'

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

test('the stages of a job are counted through, also one that comes back', () => {
  expect(stages(steps).map((stage) => [stage.n, stage.name, stage.steps.map((each) => each.code)])).toEqual([
    [1, 'strip', ['A', 'B']],
    [2, 'cooler', ['C']],
    [3, 'strip', ['D']],
  ])
  expect(stages([])).toEqual([])
})

test('where each kit numbers its own stages one stage of two kits is one', () => {
  const names = (...given: string[]) =>
    stages(given.map((name, i) => step(i, `${i}`, name))).map(({ name }) => name)
  expect(names('2 strip', '1. strip', '10) hand-over')).toEqual(['strip', 'hand-over'])
  expect(names('2', '', '12V check')).toEqual(['2', '', '12V check'])
})

test('a stage says which of several kits it is for', () => {
  const brakes = step(1, 'A', '2 strip', [], { kits: ['B'], kit_titles: ['Brakes'] })
  const both = step(2, 'B', '2 strip', [], { kits: ['A', 'B'], kit_titles: ['Turbo', 'Brakes'] })
  const old = step(3, 'C', '3 build', [], { kits: ['A'], kit_titles: [] })
  const all = [brakes, both, old]
  expect(stageKits({ n: 1, name: 'strip', steps: [brakes] }, all)).toEqual(['Brakes'])
  expect(stageKits({ n: 1, name: 'strip', steps: [brakes, both] }, all)).toEqual([])
  expect(stageKits({ n: 1, name: 'build', steps: [old] }, all)).toEqual([])
  expect(stageKits({ n: 1, name: 'strip', steps: [brakes] }, [brakes])).toEqual([])
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

test('a part of a step says how many, where it lies and how much of it', () => {
  learn(ready)
  learn(bay)
  const said = { counted: true, states: [] as string[], minor: false }
  const bolt = { ...said, line: '1', title: 'Bolt', number: 'M8', need: 8, here: 8, amount: null, kit: null }
  const bolts = { ...bolt, places: ['4 from Brakes, bag A', '4 from Turbo, bag A'] }
  const oil = {
    ...bolt,
    title: 'Oil',
    number: '',
    need: 2,
    here: 1,
    states: ['damaged 1'],
    amount: 'for 8 L',
  }
  expect(inHand([bolts, { ...oil, places: ['from the shelf'] }])).toEqual([
    { line: '1', title: 'Bolt', figure: '8', why: ['4 from Brakes, bag A, 4 from Turbo, bag A', 'M8'] },
    { line: '1', title: 'Oil', figure: '1 of 2', why: ['damaged 1', 'for 8 L', 'from the shelf'] },
  ])
  const glove = {
    ...oil,
    need: 1,
    here: 0,
    counted: false,
    states: ['not counted'],
    minor: true,
    amount: null,
  }
  expect(inHand([{ ...glove, places: ['from the shelf'] }])).toEqual([
    {
      line: '1',
      title: 'Oil',
      figure: '1',
      why: ['not counted', 'the step does not wait for it', 'from the shelf'],
    },
  ])
})

test('the kit of the parts is said once where all are of one', () => {
  const one = {
    line: '1',
    title: 'A',
    number: '',
    need: 1,
    here: 1,
    counted: true,
    states: [],
    minor: false,
    amount: null,
    places: ['bag A'],
    kit: 'Turbo',
  }
  const shelf = { ...one, kit: null, places: ['from the shelf'] }
  const brakes = { ...one, kit: 'Brakes' }
  expect([kitOfAll([one, shelf]), kitOfAll([shelf]), kitOfAll([one, brakes])]).toEqual(['Turbo', null, null])
  expect(inHand([one, shelf]).map(({ why }) => why)).toEqual([['bag A'], ['from the shelf']])
  expect(inHand([one, brakes]).map(({ why }) => why)).toEqual([
    ['bag A', 'Turbo'],
    ['bag A', 'Brakes'],
  ])
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
