// The stages and steps of a job as the screen groups them.
import { Exact } from '../../../calc/exact'
import type { Shape } from '../../../lib/api/types'
import type { Readiness, StepReach } from '../../../lib/job/readiness'
import { t } from '../../../lib/text/text'

export type Step = Shape<'JobOperationOut'>

export interface Stage {
  /** Its number among the stages of the job, from 1. */
  n: number
  name: string
  hours: string
  steps: Step[]
}

/** Returns the letters of the kits that the steps belong to. */
const kitsOf = (steps: readonly Step[]): Set<string> => new Set(steps.flatMap((step) => step.kits))

/** Removes the number that a kit's template gave a stage: a job numbers its own stages. */
const bare = (name: string) => name.replace(/^\d+[.)]?\s+(?=\S)/, '')

/** Returns the titles of the kits of a stage; none if it is for all kits of the job or the titles were not kept. */
export function stageKits(stage: Stage, all: readonly Step[]): string[] {
  if (kitsOf(stage.steps).size === kitsOf(all).size) return []
  return [...new Set(stage.steps.flatMap((step) => step.kit_titles))]
}

/** Returns the stages with their hours, in the order of their first steps. */
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

/** Words ascending positions as ranges: "1 to 3, 7". */
export function ranges(positions: readonly number[]): string {
  const runs: [number, number][] = []
  for (const position of positions) {
    const last = runs.at(-1)
    if (last && last[1] + 1 === position) last[1] = position
    else runs.push([position, position])
  }
  return runs.map(([from, to]) => (from === to ? `${from}` : t('bay.stage.range', { from, to }))).join(', ')
}

/** Returns the name of a step in an address, which is also the id of its element. */
export const nameOf = ({ position }: Pick<Step, 'position'>) => `step-${position}`

/**
 * Returns the step in hand: the chosen one, else of the steps that are not done the first that can begin with the
 * parts here, else the first.
 */
export function stepInHand(
  steps: readonly Step[],
  reach: Readiness | undefined,
  chosen: string | undefined,
): Step | undefined {
  const open = steps.filter(({ done_at }) => !done_at)
  const clear = new Set(reach?.steps.filter(({ state }) => state === 'clear').map(({ position }) => position))
  return (
    steps.find((step) => nameOf(step) === chosen) ??
    open.find(({ position }) => clear.has(position)) ??
    open[0] ??
    steps[0]
  )
}

/** Splits the steps into lists at each bar, which precedes its step. */
export function runs(steps: readonly Step[], barred: ReadonlySet<number>): Step[][] {
  const groups: Step[][] = []
  for (const step of steps) {
    const last = groups.at(-1)
    if (last && !barred.has(step.position)) last.push(step)
    else groups.push([step])
  }
  return groups
}

/** Returns the positions of the steps that a step waits for; none if that is only the one above it. */
export function waitsFor(step: Step, steps: readonly Step[]): number[] {
  const positions = step.after
    .map((code) => steps.find((step) => step.code === code)?.position)
    .filter((position) => position !== undefined)
    .sort((a, b) => a - b)
  const above = steps[steps.indexOf(step) - 1]?.position
  return positions.length === 1 && positions[0] === above ? [] : positions
}

type Part = StepReach['parts'][number]

/** Returns the kit of all boxed parts of a step, shown once above them; null if there are several. */
export function kitOfAll(parts: StepReach['parts']): string | null {
  const [kit, ...others] = new Set(parts.flatMap((part) => part.kit ?? []))
  return others.length ? null : (kit ?? null)
}

/**
 * Returns the place and the state that all of several parts share, shown once above them; empty where they differ. Bags
 * of two kits can have one name.
 */
export function commonWords(parts: StepReach['parts']): { places: string; state: string } {
  if (parts.length < 2) return { places: '', state: '' }
  const ofOneKit = new Set(parts.map(({ kit }) => kit)).size === 1
  return { places: ofOneKit ? common(parts, placesOf) : '', state: common(parts, stateOf) }
}

const placesOf = ({ places }: Part) => places.join(', ')
const stateOf = (part: Part) => lacking(part).join('; ')

function common(parts: readonly Part[], words: (part: Part) => string): string {
  const [first = '', ...others] = new Set(parts.map(words))
  return others.length ? '' : first
}

/**
 * Returns the parts of a step as they are listed: the number, the state of missing ones, and where they lie, without
 * the words that all share.
 */
export function inHand(parts: StepReach['parts']) {
  const kit = kitOfAll(parts)
  const all = commonWords(parts)
  return parts.map((part) => ({
    line: part.line,
    title: part.title,
    figure: figure(part),
    why: present([
      ...(all.state ? [] : lacking(part)),
      part.amount,
      all.places ? null : placesOf(part),
      part.kit === kit ? null : part.kit,
      part.number,
    ]),
  }))
}

/**
 * Words the number of a part: "2 of 4" if it was counted and is short, else the number that the step needs. Not
 * counted is not zero.
 */
function figure({ here, need, counted }: Part): string {
  return here < need && (counted || here) ? t('ready.have', { have: here, need }) : `${need}`
}

/** Words the states of a part that is short, and whether its step can do without it. */
const lacking = ({ here, need, states, minor }: Part) =>
  here < need ? present([states.join(', '), minor ? t('bay.step.parts.minor') : null]) : []
const present = (words: readonly (string | null)[]) => words.filter((word): word is string => Boolean(word))

const MANY = 5 // the most parts that one reads at a glance

/** The parts of one bag or shelf. `note` has their number and a state that all share, such as "not counted". */
interface PlaceOfParts {
  title: string
  note: string
  /** Whether a counted part is short, which must not be folded away. */
  open: boolean
  parts: Pick<ReturnType<typeof inHand>[number], 'line' | 'title' | 'figure' | 'why'>[]
}

/** Groups the parts of a step by place; no groups if they are few or all in one place. */
export function byPlace(parts: StepReach['parts']): PlaceOfParts[] {
  const ofAll = kitOfAll(parts)
  const places = new Map<string, Part[]>()
  for (const part of parts) {
    const title = present([placesOf(part), part.kit === ofAll ? null : part.kit]).join('; ')
    places.set(title, [...(places.get(title) ?? []), part])
  }
  if (parts.length <= MANY || places.size < 2) return []
  return [...places].map(([title, own]) => {
    const all = common(own, stateOf)
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

/** Returns a pause in the largest unit that gives a whole number. */
export function pause(minutes: number): { unit: 'minutes' | 'hours' | 'days'; n: number } {
  if (minutes >= 2880 && minutes % 1440 === 0) return { unit: 'days', n: minutes / 1440 }
  if (minutes >= 60 && minutes % 60 === 0) return { unit: 'hours', n: minutes / 60 }
  return { unit: 'minutes', n: minutes }
}
