// The decisions of a person about a file, as the server keeps them: each is a step, and each can be undone.
import type { Body, Shape } from '../../../../lib/api/types'
import type { Import } from '../fileReader.svelte'

type WholeStep = Body<'post', 'imports/{id}/steps'>
type StepIn = Pick<WholeStep, 'do'> & Partial<WholeStep>
const NOTHING = { sheet: '', rows: [], field: '', text: '', question: '', problem: '', carton: '', bag: '' }

export type ImportLine = Shape<'ImportLineOut'>
export type Remark = Shape<'RemarkOut'>
export type Place = Shape<'PlaceOut'>

/** Sends a step, or undoes one by its id. Each answers whether it was done. */
export interface Repairs {
  busy: boolean
  step: (step: StepIn) => Promise<boolean>
  undo: (id: string) => Promise<boolean>
}

/** Returns the step as it is sent, with nothing in the fields that it does not need. */
export function whole(step: StepIn): WholeStep {
  return { ...NOTHING, ...step }
}

/** Returns the step that wrote this cell; the last one counts. */
export function stepOf(file: Import, line: ImportLine, field: string): string | undefined {
  return file.steps.findLast(
    (step) =>
      step.do === 'value' &&
      step.field === field &&
      step.sheet === line.sheet &&
      step.rows.includes(line.row),
  )?.id
}

/** Returns the step that left this row out. */
export function stepOut(file: Import, sheet: string, row: number): string | undefined {
  return file.steps.findLast(
    (step) => step.do === 'leave_out' && step.sheet === sheet && step.rows.includes(row),
  )?.id
}

/** Returns whether the line is not imported, whatever a person does about it. */
export function leavesOut(line: ImportLine): boolean {
  return line.findings.some((finding) => finding.leaves_out)
}

export interface Carton {
  label: string
  lines: number
  bags: Place[]
}

/** Returns the places by carton, in the order of the list. */
export function cartons(places: readonly Place[]): Carton[] {
  const byLabel = new Map<string, Carton>()
  for (const place of places) {
    const carton = byLabel.get(place.carton) ?? { label: place.carton, lines: 0, bags: [] }
    carton.lines += place.lines
    carton.bags.push(place)
    byLabel.set(place.carton, carton)
  }
  return [...byLabel.values()]
}

/** Returns the rows from first to last of those listed, for a range typed in either order. */
export function rowsBetween(lines: readonly ImportLine[], first: number, last: number): number[] {
  const [low, high] = first <= last ? [first, last] : [last, first]
  return lines.map((line) => line.row).filter((row) => row >= low && row <= high)
}
