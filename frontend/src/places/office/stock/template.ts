// Holds the steps of a template as they are typed, moves them, and works out which wait for which.
import type { Shape } from '../../../lib/api/types'

export interface TypedStep {
  operation: string
  hours: string
  stage: string
  after: string[]
  when: string
}

/** Returns the steps as the request has them. */
export const stepsOf = (template?: Shape<'TemplateOut'>): TypedStep[] =>
  (template?.steps ?? []).map(({ operation, hours, stage, after, when }) => ({
    operation,
    hours,
    stage,
    after: [...after],
    when,
  }))

/** Returns the steps with the one at `at` moved by `by` places; the same steps if it cannot move. */
export function moved(steps: readonly TypedStep[], at: number, by: -1 | 1): TypedStep[] {
  const next = [...steps]
  const step = next[at]
  const other = next[at + by]
  if (!step || !other) return next
  next[at] = other
  next[at + by] = step
  return next
}

/** Returns the steps without the one at `at`; its followers take over its predecessors. */
export function without(steps: readonly TypedStep[], at: number): TypedStep[] {
  const gone = steps[at]
  if (!gone) return [...steps]
  return steps
    .filter((step) => step !== gone)
    .map((step) => {
      if (!step.after.includes(gone.operation)) return step
      const rest = step.after.filter((code) => code !== gone.operation)
      return {
        ...step,
        after: [...new Set([...rest, ...gone.after])].filter((code) => code !== step.operation),
      }
    })
}

/** Returns the steps with a new one at the end, which waits for the one above it. */
export function withStep(steps: readonly TypedStep[], operation: string): TypedStep[] {
  const above = steps.at(-1)
  const stage = above?.stage ?? ''
  return [...steps, { operation, hours: '', stage, after: above ? [above.operation] : [], when: '' }]
}

/** Returns the numbers (from 1) of the steps that the step waits for; 0 stands for a step that is not there. */
export const waitsFor = (steps: readonly TypedStep[], step: TypedStep): number[] =>
  step.after.map((code) => steps.findIndex(({ operation }) => operation === code) + 1).sort((a, b) => a - b)
