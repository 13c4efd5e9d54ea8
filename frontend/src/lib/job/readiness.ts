// How far a job can go: the stamps of verdicts and steps, and saying when something comes.
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

/** The hours that can be done: first of all those before the stop, where there is one. */
export function clearHours(readiness: Readiness): string {
  const hours = { cleared: plain(readiness.cleared_hours), total: plain(readiness.total_hours) }
  const heldStep = heldBefore(readiness)
  const before = heldStep && readiness.hours_before_hold
  if (!heldStep || !before) return t('ready.clear', hours)
  return t('ready.clear.until', { ...hours, before: plain(before), position: heldStep.position })
}

/** The stamp of the verdict; what only lacks a spare may start, though not all is here. */
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

/** The stamp of a step; one that only lacks what it does not wait for can start, though not all is here. */
export function stepState({ state, parts }: StepReach): State {
  const isShort = parts.some(({ here, need }) => here < need)
  return state === 'clear' && isShort ? 'may_start' : STEPS[state]
}

/** A step without parts of its own is not "all here". */
export const needsNothing = ({ state, parts }: StepReach): boolean => state === 'clear' && !parts.length

/** The step before which the bar stands: only where work may go as far as that. */
export function heldBefore({ verdict, hold_before }: Readiness): Readiness['hold_before'] {
  return verdict === 'start_to_hold' ? hold_before : null
}

/** The step that the bar stands for: not one that only waits where the vehicle can move. */
export function stuckAt(reach: Readiness): StepReach | undefined {
  const heldStep = heldBefore(reach)
  return heldStep ? reach.steps.find(({ position }) => position === heldStep.waits_at) : undefined
}

/** The steps from which the vehicle cannot move, where it could before: said once for each window. */
export function standsFrom(
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

/** The first few, and how many are left out. */
export function few<T>(all: readonly T[], most: number): { shown: readonly T[]; more: number } {
  return all.length <= most + 1
    ? { shown: all, more: 0 }
    : { shown: all.slice(0, most), more: all.length - most }
}

export interface Said {
  lines: readonly string[]
  day: string | null
  time: string | null
}

/** Says when these lines of a list come; the answer holds what to send to take it back. */
export function sayDue(list: string, due: Said): Promise<Answer<Shape<'DueOut'>>> {
  return write('post', 'pull-lists/{id}/due', { id: list }, { ...due, lines: [...due.lines] })
}

export const setHere = (job: string, { here, here_from }: Here, match: string | null) =>
  write('patch', 'jobs/{id}', { id: job }, { here, here_from }, { match })
