// Words the quantity of a kit's needs: a fixed one is a figure, another one names what it depends on.
import type { Shape } from '../../../lib/api/types'
import { plain } from '../../../lib/text/decimals'
import { t } from '../../../lib/text/text'

export type Need = Shape<'KitNeedOut'>

/** Returns the figure of a fixed need; null for another. */
export function figureOf(need: Need): string | null {
  return need.rule === 'fixed' ? t('office.kit.quantity', { n: plain(need.quantity), unit: need.unit }) : null
}

/** Words what the quantity depends on; nothing if it is fixed. */
export function amountOf({ rule, quantity, unit, of }: Need): string[] {
  const facts = { quantity: plain(quantity), unit, of }
  switch (rule) {
    case 'fixed':
      return []
    case 'of_capacity':
      return [
        facts.quantity === '1'
          ? t('office.need.of_capacity', facts)
          : t('office.need.of_capacity.share', facts),
      ]
    case 'per_fastener':
    case 'bead':
    case 'refill':
    case 'refill_water':
      return [t(`office.need.${rule}`, facts)]
    default:
      return [[facts.quantity, unit, of].filter(Boolean).join(' ')]
  }
}

/** Words a parts list: its lines, and its cartons if it has any. */
export function contentsOf({ parts, cartons }: Pick<Shape<'KitRowOut'>, 'parts' | 'cartons'>): string {
  return cartons ? t('office.kit.parts.in_cartons', { parts, cartons }) : t('office.kit.parts', { n: parts })
}

/** Words how the customer pays for it. */
export function chargeOf({ charge }: Need): string {
  return t(`office.need.charge.${charge}`)
}

/** Words the turnaround, the rounds and the needs of work by another firm. */
export function termsOf({ days, needed_by, rounds, they_need }: Shape<'KitOutsideOut'>): string[] {
  return [
    ...(days === null ? [] : [t('office.kit.outside.days', { n: days })]),
    ...(needed_by ? [t('office.kit.outside.needed', { step: needed_by })] : []),
    ...(rounds === null ? [] : [t('office.kit.outside.rounds', { n: rounds })]),
    ...(they_need ? [t('office.kit.outside.they_need', { words: they_need })] : []),
  ]
}
