// The work of a job as it stands on the sheet: stages in the order of their first step, and what a step waits for.
import { Exact } from '../../calc/exact'
import type { Shape } from '../../lib/api/types'
import type { Readiness, StepReach } from '../../lib/job/readiness'
import { t } from '../../lib/text/text'

export type Step = Shape<'JobOperationOut'>

export interface Stage {
  /** Its place among the stages of the job, from 1. */
  n: number
  name: string
  hours: string
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

/** The stages of the work with their hours, in the order of the first step of each. */
export function stages(steps: readonly Step[]): Stage[] {
  const byName = new Map<string, Step[]>()
  for (const step of steps) {
    const name = bare(step.stage)
    byName.set(name, [...(byName.get(name) ?? []), step])
  }
  return [...byName].map(([name, own], i) => ({ n: i + 1, name, hours: hoursOf(own), steps: own }))
}

const hoursOf = (steps: readonly Step[]) =>
  steps.reduce((sum, step) => sum.plus(Exact.read(step.hours)), Exact.of(0n)).rounded(2)

/** Positions as one reads them: "1 to 3, 7". They come in order. */
export function ranges(positions: readonly number[]): string {
  const runs: [number, number][] = []
  for (const position of positions) {
    const last = runs.at(-1)
    if (last && last[1] + 1 === position) last[1] = position
    else runs.push([position, position])
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : t('bay.stage.range', { from, to }))).join(', ')
}

/** The name of a step in an address, and the id of its sheet. */
export const nameOf = ({ position }: Pick<Step, 'position'>) => `step-${position}`

/**
 * The step in hand: the one that was chosen, else the first that can begin with what is here, else the first.
 * Nothing records yet that a step is done.
 */
export function stepInHand(
  steps: readonly Step[],
  reach: Readiness | undefined,
  chosen: string | undefined,
): Step | undefined {
  const clear = reach?.steps.find(({ state }) => state === 'clear')
  const named = (name: string | undefined) => steps.find((step) => nameOf(step) === name)
  return named(chosen) ?? named(clear && nameOf(clear)) ?? steps[0]
}

/** Steps that stand in one list: a bar before a step parts it from the one above. */
export function runs(steps: readonly Step[], barred: ReadonlySet<number>): Step[][] {
  const groups: Step[][] = []
  for (const step of steps) {
    const last = groups.at(-1)
    if (last && !barred.has(step.position)) last.push(step)
    else groups.push([step])
  }
  return groups
}

/** The positions a step waits for; none where it only follows the one above it. */
export function waitsFor(step: Step, steps: readonly Step[]): number[] {
  const positions = step.after
    .map((code) => steps.find((step) => step.code === code)?.position)
    .filter((position) => position !== undefined)
    .sort((a, b) => a - b)
  const above = steps[steps.indexOf(step) - 1]?.position
  return positions.length === 1 && positions[0] === above ? [] : positions
}

type Part = StepReach['parts'][number]

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
function figure({ here, need, counted }: Part): string {
  return here < need && (counted || here) ? t('ready.have', { have: here, need }) : `${need}`
}

function why(part: Part, ofAll: string | null): string[] {
  const { amount, places, kit, number } = part
  return present([...lacking(part), amount, places.join(', '), kit === ofAll ? null : kit, number])
}

/** What the counts say of a part that is not here in full, and whether its step does without it. */
const lacking = ({ here, need, states, minor }: Part) =>
  here < need ? present([states.join(', '), minor ? t('bay.step.parts.minor') : null]) : []
const present = (words: readonly (string | null)[]) => words.filter((word): word is string => Boolean(word))

const MANY = 5 // parts that one reads at a glance

/** The parts of one bag or shelf; `note` counts them and says what holds for all of them, such as "not counted". */
export interface PlaceOfParts {
  title: string
  note: string
  /** Something of it was counted and is not here: that is not folded away. */
  open: boolean
  parts: Pick<ReturnType<typeof inHand>[number], 'line' | 'title' | 'figure' | 'why'>[]
}

/** The parts of a step that has many, by the place where they lie; none where they are few or all in one place. */
export function byPlace(parts: StepReach['parts']): PlaceOfParts[] {
  const ofAll = kitOfAll(parts)
  const places = new Map<string, Part[]>()
  for (const part of parts) {
    const title = present([part.places.join(', '), part.kit === ofAll ? null : part.kit]).join('; ')
    places.set(title, [...(places.get(title) ?? []), part])
  }
  if (parts.length <= MANY || places.size < 2) return []
  return [...places].map(([title, own]) => {
    const [first = '', ...others] = new Set(own.map((part) => lacking(part).join('; ')))
    const all = others.length ? '' : first
    return {
      title,
      note: present([t('bay.step.parts.n', { n: own.length }), all]).join(', '),
      open: own.some(({ here, need, counted }) => counted && here < need),
      parts: own.map((part) => ({
        line: part.line,
        title: part.title,
        figure: figure(part),
        why: present([...(all ? [] : lacking(part)), part.amount, part.number]),
      })),
    }
  })
}

/** A pause in the largest unit that words it exactly. */
export function pause(minutes: number): { unit: 'minutes' | 'hours' | 'days'; n: number } {
  if (minutes >= 2880 && minutes % 1440 === 0) return { unit: 'days', n: minutes / 1440 }
  if (minutes >= 60 && minutes % 60 === 0) return { unit: 'hours', n: minutes / 60 }
  return { unit: 'minutes', n: minutes }
}
