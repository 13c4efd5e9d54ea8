import { expect, test } from 'vitest'
import { moved, type TypedStep, waitsFor, without, withStep } from './template'

const step = (operation: string, ...after: string[]): TypedStep => ({
  operation,
  hours: '1',
  stage: 'Front',
  after,
  when: '',
})
const STEPS = [step('STRIP'), step('TURBO', 'STRIP'), step('BUILD', 'TURBO')]
const codes = (steps: readonly TypedStep[]) => steps.map(({ operation }) => operation).join(' ')

test('a step moves by one place, and not past the ends', () => {
  expect(codes(moved(STEPS, 0, 1))).toBe('TURBO STRIP BUILD')
  expect(codes(moved(STEPS, 0, -1))).toBe('STRIP TURBO BUILD')
  expect(codes(moved(STEPS, 2, 1))).toBe('STRIP TURBO BUILD')
})

test('who waited for a step that is taken out waits for what that step waited for', () => {
  expect(without(STEPS, 1)).toEqual([step('STRIP'), step('BUILD', 'STRIP')])
  expect(without(STEPS, 0)[0]).toEqual(step('TURBO'))
})

test('a new step waits for the one above it', () => {
  expect(withStep(STEPS, 'FILL').at(-1)).toEqual({ ...step('FILL', 'BUILD'), hours: '' })
  expect(withStep([], 'FILL')[0]?.after).toEqual([])
})

test('a step names the numbers of those it waits for', () => {
  expect(waitsFor(STEPS, step('FILL', 'BUILD', 'STRIP', 'GHOST'))).toEqual([0, 1, 3])
})
