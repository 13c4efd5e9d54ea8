import { expect, test } from 'vitest'
import type { Readiness } from '../../../lib/job/readiness'
import bay from '../../../lib/messages/en-GB/bay.ftl'
import ready from '../../../lib/messages/en-GB/ready.ftl'
import { learn } from '../../../lib/text/text'
import {
  byPlace,
  commonWords,
  inHand,
  kitOfAll,
  pause,
  ranges,
  runs,
  type Stage,
  type Step,
  stageKits,
  stages,
  stepInHand,
  waitsFor,
} from './stages'

const step = (
  position: number,
  code: string,
  stage: string,
  after: string[] = [],
  more: Partial<Step> = {},
) => ({ position, code, stage, after, hours: '0.5', cautions: [], torques: [], ...more }) as unknown as Step

const strip = step(1, 'A', '1 strip')
const bumper = step(2, 'B', '1 strip', ['A'])
const cooler = step(3, 'C', '2 cooler', ['B'])
const late = step(4, 'D', '1 strip', ['C', 'A'])
const steps = [strip, bumper, cooler, late]

test('the stages of a job stand by their first steps, each once, with their hours', () => {
  expect(
    stages(steps).map(({ n, name, hours, steps }) => [n, name, hours, steps.map(({ code }) => code)]),
  ).toEqual([
    [1, 'strip', '1.50', ['A', 'B', 'D']],
    [2, 'cooler', '0.50', ['C']],
  ])
  expect(
    stages([step(1, 'A', '', [], { hours: '0.10' }), step(2, 'B', '', [], { hours: '0.20' })])[0]?.hours,
  ).toBe('0.30')
  expect(stages([])).toEqual([])
})

test('the steps of a stage are shown as ranges', () => {
  learn(bay)
  expect(ranges([1, 2, 4, 6, 7, 8])).toBe('1 to 2, 4, 6 to 8')
  expect(ranges([3])).toBe('3')
})

test('in hand is the step that was chosen, else the first not done that can begin, else the first', () => {
  const reach = {
    steps: [
      { position: 1, state: 'waits' },
      { position: 2, state: 'clear' },
    ],
  } as unknown as Readiness
  const none = { steps: [{ position: 1, state: 'waits' }] } as unknown as Readiness
  const code = (reach: Readiness | undefined, chosen?: string) => stepInHand(steps, reach, chosen)?.code
  expect([code(reach, 'step-3'), code(reach), code(none), code(undefined), code(reach, 'step-99')]).toEqual([
    'C',
    'B',
    'A',
    'A',
    'B',
  ])
  const done = { ...bumper, done_at: '2026-11-26T14:06:00Z', done_by: 'Oda' }
  expect(stepInHand([strip, done, cooler], reach, undefined)?.code).toBe('A')
  expect(stepInHand([done], reach, undefined)?.code).toBe('B')
  expect(stepInHand([], reach, 'step-1')).toBeUndefined()
})

test('where each kit numbers its own stages one stage of two kits is one', () => {
  const names = (...titles: string[]) =>
    stages(titles.map((name, i) => step(i, `${i}`, name))).map(({ name }) => name)
  expect(names('2 strip', '1. strip', '10) hand-over')).toEqual(['strip', 'hand-over'])
  expect(names('2', '', '12V check')).toEqual(['2', '', '12V check'])
})

test('a stage says which of several kits it is for', () => {
  const brakes = step(1, 'A', '2 strip', [], { kits: ['B'], kit_titles: ['Brakes'] })
  const both = step(2, 'B', '2 strip', [], { kits: ['A', 'B'], kit_titles: ['Turbo', 'Brakes'] })
  const old = step(3, 'C', '3 build', [], { kits: ['A'], kit_titles: [] })
  const all = [brakes, both, old]
  const of = (name: string, steps: Step[]): Stage => ({ n: 1, name, hours: '0', steps })
  expect(stageKits(of('strip', [brakes]), all)).toEqual(['Brakes'])
  expect(stageKits(of('strip', [brakes, both]), all)).toEqual([])
  expect(stageKits(of('build', [old]), all)).toEqual([])
  expect(stageKits(of('strip', [brakes]), [brakes])).toEqual([])
})

test('steps share a list until a bar stands before one', () => {
  const codes = (...barred: number[]) =>
    runs(steps, new Set(barred)).map((run) => run.map((step) => step.code))
  expect(codes()).toEqual([['A', 'B', 'C', 'D']])
  expect(codes(1, 3)).toEqual([
    ['A', 'B'],
    ['C', 'D'],
  ])
})

test('a part of a step says how many, where it lies and how much of it', () => {
  learn(ready)
  learn(bay)
  const countState = { counted: true, states: [] as string[], minor: false }
  const bolt = {
    ...countState,
    line: '1',
    title: 'Bolt',
    number: 'M8',
    need: 8,
    here: 8,
    amount: null,
    kit: null,
  }
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

test('the kit of the parts is shown once if all are of one', () => {
  const single = {
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
  const shelf = { ...single, kit: null, places: ['from the shelf'] }
  const brakes = { ...single, kit: 'Brakes' }
  expect([kitOfAll([single, shelf]), kitOfAll([shelf]), kitOfAll([single, brakes])]).toEqual([
    'Turbo',
    null,
    null,
  ])
  expect(inHand([single, shelf]).map(({ why }) => why)).toEqual([['bag A'], ['from the shelf']])
  expect(inHand([single, brakes]).map(({ why }) => why)).toEqual([
    ['bag A', 'Turbo'],
    ['bag A', 'Brakes'],
  ])
})

test('place and state are shown once if all parts share them', () => {
  const bolt = {
    line: '1',
    title: 'Bolt',
    number: 'M8',
    need: 2,
    here: 0,
    counted: false,
    states: ['not counted'],
    minor: false,
    amount: null,
    places: ['from the shelf'],
    kit: null,
  }
  const nut = { ...bolt, line: '2', title: 'Nut', number: 'N8' }
  const whys = (...parts: (typeof bolt)[]) => inHand(parts).map(({ why }) => why)
  expect(commonWords([bolt, nut])).toEqual({ places: 'from the shelf', state: 'not counted' })
  expect(whys(bolt, nut)).toEqual([['M8'], ['N8']])
  const here = { ...nut, here: 2, counted: true, states: [] }
  expect(commonWords([bolt, here])).toEqual({ places: 'from the shelf', state: '' })
  expect(whys(bolt, here)).toEqual([['not counted', 'M8'], ['N8']])
  expect(commonWords([bolt, { ...nut, places: ['bag A'] }])).toEqual({ places: '', state: 'not counted' })
  expect(commonWords([bolt])).toEqual({ places: '', state: '' })
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
])('%d minutes are worded in %s', (minutes, unit, n) => {
  expect(pause(minutes)).toEqual({ unit, n })
})

test('many parts are folded by place, with a shared state shown once', () => {
  const part = (n: number, place: string, more = {}) => ({
    line: String(n),
    title: `Bolt ${n}`,
    number: `M${n}`,
    need: 2,
    here: 0,
    counted: false,
    states: ['not counted'],
    minor: false,
    amount: null,
    places: [place],
    kit: 'Turbo',
    ...more,
  })
  const five = [1, 2, 3, 4, 5].map((n) => part(n, 'bag A'))
  const shelf = part(9, 'from the shelf', { kit: null, counted: true, here: 1, states: ['short 1'] })
  expect(byPlace(five)).toEqual([])
  expect(byPlace([...five, part(9, 'bag A')])).toEqual([])
  const [bag, other] = byPlace([...five, shelf])
  expect(bag).toMatchObject({ title: 'bag A', note: '5 parts, not counted', open: false })
  expect(bag?.parts[0]).toEqual({ line: '1', title: 'Bolt 1', figure: '2', why: ['M1'] })
  expect(other).toMatchObject({ title: 'from the shelf', note: '1 part, short 1', open: true })
  const mixed = byPlace([...five, part(9, 'bag A', { here: 2, counted: true }), shelf])[0]
  expect(mixed).toMatchObject({ note: '6 parts', open: false })
  expect(mixed?.parts[0]?.why).toEqual(['not counted', 'M1'])
  expect(mixed?.parts[5]).toMatchObject({ figure: '2', why: ['M9'] })
})
