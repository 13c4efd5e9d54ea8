// How much of something a kit needs, in words: what is fixed is a figure, the rest says what it depends on.
import type { Shape } from '../../../lib/api/types'
import { plain } from '../../../lib/text/decimals'
import { t } from '../../../lib/text/text'

export type Need = Shape<'KitNeedOut'>

/** The figure of a need that depends on nothing. */
export function figureOf(need: Need): string | null {
  return need.rule === 'fixed' ? t('office.kit.quantity', { n: plain(need.quantity), unit: need.unit }) : null
}

/** The figure that the amount depends on; nothing where the amount is fixed. */
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

/** How the customer pays for it. */
export function chargeOf({ charge }: Need): string {
  return t(`office.need.charge.${charge}`)
}
