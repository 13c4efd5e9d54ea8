// The work of a job as it stands on the sheet: stages in the order of their first step, and what a step waits for.
import type { Shape } from '../../lib/api/types'
import type { StepReach } from '../../lib/ready'
import { isState, type State } from '../../lib/states'
import { t } from '../../lib/text'

export type Step = Shape<'JobOperationOut'>

export interface Stage {
  /** Its place among the stages of the job, from 1. */
  n: number
  name: string
  steps: Step[]
}

/** The kits that a job is for, by letter. */
export const kitsOf = (steps: readonly Step[]): Set<string> => new Set(steps.flatMap((step) => step.kits))

/** A stage without the number that one kit's template gave it: a job counts its own. */
const bare = (name: string) => name.replace(/^\d+[.)]?\s+(?=\S)/, '')

/** The titles of the kits a stage is for; none where it is for all of the job's, or nobody has kept them. */
export function stageKits(stage: Stage, all: readonly Step[]): string[] {
  if (kitsOf(stage.steps).size === kitsOf(all).size) return []
  return [...new Set(stage.steps.flatMap((step) => step.kit_titles))]
}

/** Steps in order, a new stage wherever its name changes, counted through the whole job. */
export function stages(steps: readonly Step[]): Stage[] {
  const found: Stage[] = []
  for (const step of steps) {
    const last = found.at(-1)
    const name = bare(step.stage)
    if (last && last.name === name) last.steps.push(step)
    else found.push({ n: found.length + 1, name, steps: [step] })
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

/** The kit that all boxed parts of a step are of: it is said once, above them. */
export function kitOfAll(parts: StepReach['parts']): string | null {
  const [kit, ...others] = new Set(parts.flatMap((part) => part.kit ?? []))
  return others.length ? null : (kit ?? null)
}

/** The parts of a step as they are listed: how many, what the counts say where some are not here, and where they lie. */
export function inHand(parts: StepReach['parts']) {
  const ofAll = kitOfAll(parts)
  return parts.map((part) => ({
    line: part.line,
    title: part.title,
    figure: figure(part),
    why: why(part, ofAll),
  }))
}

/** Untouched is not zero: of what nobody has counted only the number that the step takes is said. */
function figure({ here, need, counted }: StepReach['parts'][number]): string {
  return here < need && (counted || here) ? t('ready.have', { have: here, need }) : `${need}`
}

function why(part: StepReach['parts'][number], ofAll: string | null): string[] {
  const { here, need, states, minor, amount, places, kit, number } = part
  const short = here < need ? [states.join(', '), minor ? t('bay.step.parts.minor') : null] : []
  return [...short, amount, places.join(', '), kit === ofAll ? null : kit, number].filter(
    (words): words is string => Boolean(words),
  )
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
