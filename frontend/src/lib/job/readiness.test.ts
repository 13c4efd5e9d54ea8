import { expect, test } from 'vitest'
import ready from '../messages/en-GB/ready.ftl'
import { learn } from '../text/text'
import {
  clearHours,
  few,
  immobileFrom,
  type Missing,
  needsNothing,
  type Readiness,
  type StepReach,
  stepState,
  stopBefore,
  stopCause,
  verdictState,
} from './readiness'

learn(ready)

const spare = { title: 'Manual' } as Missing
const readiness = (verdict: Readiness['verdict'], more: Partial<Readiness> = {}) =>
  ({ verdict, missing: [], hold_before: { position: 2 }, ...more }) as unknown as Readiness

test.each([
  ['complete', 'all_here'],
  ['start', 'may_start'],
  ['start_on_arrivals', 'may_start_due'],
  ['start_to_hold', 'stop_before'],
  ['hold', 'do_not_start'],
  [null, null],
] as const)('%s is stamped %s', (verdict, state) => {
  expect(verdictState(readiness(verdict))).toBe(state)
})

test('what lacks a spare may start, and is not all here', () => {
  expect(verdictState(readiness('complete', { missing: [spare] }))).toBe('may_start')
})

test('a step without parts is not all here', () => {
  const step = (state: string, ...parts: unknown[]) => ({ state, parts }) as unknown as StepReach
  expect([step('clear'), step('clear', {}), step('after')].map(needsNothing)).toEqual([true, false, false])
})

test('a step that only lacks what it does not wait for can start, and is not all here', () => {
  const step = (here: number) => ({ state: 'clear', parts: [{ here, need: 1 }] }) as unknown as StepReach
  expect([step(1), step(0)].map(stepState)).toEqual(['all_here', 'may_start'])
})

test('a step that waits for no part does not say that it waits for parts', () => {
  const step = (here: number) => ({ state: 'waits', parts: [{ here, need: 1 }] }) as unknown as StepReach
  expect([step(0), step(1)].map(stepState)).toEqual(['waits', 'waiting'])
})

test('the hours until the stop are shown if work may begin', () => {
  const hours = { cleared_hours: '8.0', total_hours: '18.0', hours_before_hold: '2.5' }
  expect(clearHours(readiness('start_to_hold', hours))).toBe(
    '2.5 h can be done before step 2; 8 of 18 h in all with the parts here',
  )
  expect(clearHours(readiness('hold', { ...hours, hours_before_hold: '0.0' }))).toBe(
    '8 of 18 h can be done with the parts here',
  )
})

test('the bar stands only where work may go as far as that', () => {
  expect(stopBefore(readiness('start_to_hold'))?.position).toBe(2)
  expect(stopBefore(readiness('hold'))).toBeNull()
})

test('the bar leads to the step that it stands for, not to one that waits where the vehicle can move', () => {
  const steps = ['clear', 'waits', 'clear', 'waits', 'waits'].map((state, i) => ({ state, position: i + 1 }))
  const holding = (waits_at: number | null) => ({ steps, hold_before: { position: 3, waits_at } }) as never
  expect(stopCause(readiness('start_to_hold', holding(4)))?.position).toBe(4)
  expect(stopCause(readiness('start_to_hold', holding(null)))).toBeUndefined()
  expect(stopCause(readiness('hold', holding(4)))).toBeUndefined()
})

test('one more than the most is shown: a line that says so would take its place', () => {
  expect(few([1, 2, 3], 2)).toEqual({ shown: [1, 2, 3], more: 0 })
  expect(few([1, 2, 3, 4], 2)).toEqual({ shown: [1, 2], more: 2 })
})

test('the vehicle stands from the first step of each window', () => {
  const step = (position: number, more = {}) => ({ position, no_return: false, mobile_again: false, ...more })
  const leave = { no_return: true }
  const sheet = [
    step(1),
    step(2, leave),
    step(3, leave),
    step(4, { mobile_again: true }),
    step(5, leave),
    step(6, { ...leave, mobile_again: true }),
    step(7, { ...leave, mobile_again: true }),
  ]
  expect([...immobileFrom(sheet)]).toEqual([2, 5, 7])
  expect([...immobileFrom(sheet.slice(0, 1))]).toEqual([])
})
