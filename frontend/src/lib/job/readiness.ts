// Readiness of a job: the stamps of its verdict and steps, the hours that can be done, and setting due dates.
import { type Answer, write } from '../api/client'
import type { Shape } from '../api/types'
import type { State } from '../components/stampStates'
import { plain } from '../text/decimals'
import { t } from '../text/text'
import type { Here } from './arrival'

export type Readiness = Shape<'ReadinessOut'>
export type Missing = Shape<'MissingOut'>
export type StepReach = Shape<'StepReadinessOut'>

const VERDICTS: Record<NonNullable<Readiness['verdict']>, State> = {
  complete: 'all_here',
  start: 'may_start',
  start_on_arrivals: 'may_start_due',
  start_to_hold: 'stop_before',
  hold: 'do_not_start',
}

/** Words the hours that can be done, before the stop if there is one. */
export function clearHours(readiness: Readiness): string {
  const hours = { cleared: plain(readiness.cleared_hours), total: plain(readiness.total_hours) }
  const heldStep = stopBefore(readiness)
  const before = heldStep && readiness.hours_before_hold
  if (!heldStep || !before) return t('ready.clear', hours)
  return t('ready.clear.until', { ...hours, before: plain(before), position: heldStep.position })
}

/**
 * Returns the stamp of the verdict. If only parts are missing that no step waits for, the job may start but is not
 * "all here".
 */
export function verdictState({ verdict, missing }: Readiness): State | null {
  if (verdict === 'complete' && missing.length) return 'may_start'
  return verdict && VERDICTS[verdict]
}

const STEPS: Record<StepReach['state'], State> = {
  clear: 'all_here',
  comes: 'comes',
  waits: 'waits',
  after: 'waiting',
}

/**
 * Returns the stamp of a step. If it lacks only parts that it does not wait for, it may start but is not "all here".
 * One that waits and lacks no part waits for another firm or for the end of a withdrawal period.
 */
export function stepState({ state, parts }: StepReach): State {
  const isShort = parts.some(({ here, need }) => here < need)
  if (state === 'waits' && !isShort) return 'waiting'
  return state === 'clear' && isShort ? 'may_start' : STEPS[state]
}

/** Returns whether a clear step has no parts, for which "all here" would be wrong. */
export const needsNothing = ({ state, parts }: StepReach): boolean => state === 'clear' && !parts.length

/** Returns the step before which work must stop, if the job may start before it. */
export function stopBefore({ verdict, hold_before }: Readiness): Readiness['hold_before'] {
  return verdict === 'start_to_hold' ? hold_before : null
}

/** Returns the step that causes the stop. It can come after the stop, because the vehicle cannot move in between. */
export function stopCause(reach: Readiness): StepReach | undefined {
  const heldStep = stopBefore(reach)
  return heldStep ? reach.steps.find(({ position }) => position === heldStep.waits_at) : undefined
}

/** Returns the first step of each run in which the vehicle cannot move. */
export function immobileFrom(
  steps: readonly Pick<StepReach, 'position' | 'no_return' | 'mobile_again'>[],
): Set<number> {
  const positions = new Set<number>()
  let apart = false
  for (const step of steps) {
    if (step.no_return && !apart) positions.add(step.position)
    apart = (apart || step.no_return) && !step.mobile_again
  }
  return positions
}

/** Returns the first items and the number of the others. A single item is never left out. */
export function few<T>(all: readonly T[], most: number): { shown: readonly T[]; more: number } {
  return all.length <= most + 1
    ? { shown: all, more: 0 }
    : { shown: all.slice(0, most), more: all.length - most }
}

export interface Due {
  lines: readonly string[]
  day: string | null
  time: string | null
}

/** Sets when these lines of a list come. The answer holds the previous due date, to undo it. */
export function setDue(list: string, due: Due): Promise<Answer<Shape<'DueOut'>>> {
  return write('post', 'pull-lists/{id}/due', { id: list }, { ...due, lines: [...due.lines] })
}

export const setHere = (job: string, { here, here_from }: Here, match: string | null) =>
  write('patch', 'jobs/{id}', { id: job }, { here, here_from }, { match })
