// The work of a job as it stands on the sheet: stages in the order of their first step, and what a step waits for.
import type { Shape } from '../../lib/api/types'
import { isState, type State } from '../../lib/states'

export type Step = Shape<'JobOperationOut'>

export interface Stage {
  name: string
  steps: Step[]
}

/** The kits that a job is for, by letter. */
export const kitsOf = (steps: readonly Step[]): Set<string> => new Set(steps.flatMap((step) => step.kits))

/** A stage as it is told: each kit numbers its own, so with several kits a number says nothing. */
export function stageTitle(name: string, kits: number): string {
  return kits > 1 ? name.replace(/^\d+[.)]?\s+(?=\S)/, '') : name
}

/** The titles of the kits a stage is for; none where it is for all of the job's, or nobody has kept them. */
export function stageKits(stage: Stage, all: readonly Step[]): string[] {
  if (kitsOf(stage.steps).size === kitsOf(all).size) return []
  return [...new Set(stage.steps.flatMap((step) => step.kit_titles))]
}

/** Steps in order, a new stage wherever its name changes. */
export function stages(steps: readonly Step[]): Stage[] {
  const found: Stage[] = []
  for (const step of steps) {
    const last = found.at(-1)
    if (last && last.name === step.stage) last.steps.push(step)
    else found.push({ name: step.stage, steps: [step] })
  }
  return found
}

/** Steps that stand in one list: a caution, a bar or a torque value between two of them parts it. */
export function runs(steps: readonly Step[]): Step[][] {
  const found: Step[][] = []
  for (const [i, step] of steps.entries()) {
    const above = steps[i - 1]
    const parted = !above || announced(step) || followed(above)
    if (parted) found.push([step])
    else found.at(-1)?.push(step)
  }
  return found
}

/** The steps from which the vehicle cannot move, where it could before: the bar is shown once for each window. */
export function standsFrom(steps: readonly Step[]): Set<number> {
  const found = new Set<number>()
  let apart = false
  for (const step of steps) {
    if (step.no_return && !apart) found.add(step.position)
    apart = (apart || step.no_return) && !step.mobile_again
  }
  return found
}

const announced = (step: Step) => step.no_return || step.cautions.length > 0
const followed = (step: Step) => step.hold_point || step.wait_after > 0 || step.torques.length > 0

/** The positions a step waits for; none where it only follows the one above it. */
export function waitsFor(step: Step, steps: readonly Step[]): number[] {
  const positions = step.after
    .map((code) => steps.find((each) => each.code === code)?.position)
    .filter((position) => position !== undefined)
    .sort((a, b) => a - b)
  const above = steps[steps.indexOf(step) - 1]?.position
  return positions.length === 1 && positions[0] === above ? [] : positions
}

/** A pause in the largest unit that words it exactly. */
export function pause(minutes: number): { unit: 'minutes' | 'hours' | 'days'; n: number } {
  if (minutes >= 2880 && minutes % 1440 === 0) return { unit: 'days', n: minutes / 1440 }
  if (minutes >= 60 && minutes % 60 === 0) return { unit: 'hours', n: minutes / 60 }
  return { unit: 'minutes', n: minutes }
}

const STAMPS: Record<string, State> = { waiting: 'waiting_for_parts', in_bay: 'in_the_bay' }

/** The stamp of a job's state; on a job "waiting" is for parts. */
export function jobState(state: string): State | undefined {
  return STAMPS[state] ?? (isState(state) ? state : undefined)
}
