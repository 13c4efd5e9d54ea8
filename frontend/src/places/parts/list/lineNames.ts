// Names of places, steps and states of lines.
import type { Code } from '../../../calc/lineState'
import { session } from '../../../lib/app/session.svelte'
import type { State } from '../../../lib/components/stampStates'
import { bagName } from '../../../lib/text/boxNames'
import { t } from '../../../lib/text/text'
import { ofKit } from './boxes'
import type { Line } from './groups'

/** Words where a line lies; `kit` if the list has several. */
export function whereOf({ kind, bag, carton }: Line, kit = ''): string {
  if (kind === 'need') return t('pull.shelf')
  return ofKit(bagName({ label: bag, carton }), kit)
}

/**
 * Words a quantity that is not just a number: "1 piece of 3.5 m", "2 sets"; like the PDF
 * (kitting/presenters/boxes.py).
 */
export function measure({
  quantity,
  unit,
  pieces,
}: Pick<Line, 'quantity' | 'unit' | 'pieces'>): string | null {
  if (unit === 'pc') return null
  if (unit === 'set') return t('pull.sets', { n: pieces })
  if (unit === 'pair') return t('pull.pairs', { n: pieces })
  return t('pull.measure', { quantity, unit })
}

/** Words the quantity to buy: "4", "3.5 m". */
export function bought({ quantity, unit }: { quantity: string; unit: string }): string {
  return unit === 'pc' ? quantity : t('pull.bought', { quantity, unit })
}

/** Returns the stamp of a line's code. */
export function stampOf(code: Code): State {
  return code === 'late' ? 'after_closing' : code
}

const COUNTED = new Set(['short', 'over', 'damaged', 'wrong_part', 'after_closing'])

/** Returns the number in a stamp; undefined if the word says it all. */
export function stampCount(state: State, count: number): number | undefined {
  return COUNTED.has(state) && count > 0 && !(count === 1 && state === 'wrong_part') ? count : undefined
}

/** Maps the codes of a job's steps to their names: "4, Bumper off". */
export function stepNames(operations: readonly { position: number; code: string; title: string }[] = []) {
  const names = new Map(
    operations.map(({ position, code, title }) => [code, t('pull.operation', { position, title })]),
  )
  return (code: string) => names.get(code) ?? code
}

export const listPath = (id: string, more = '') => `/${session.slug}/parts/list/${id}${more}`
