// Words the margin of a quote for those who may see costs.
import type { Shape } from '../../../../lib/api/types'
import type { ExplanationText } from '../../../../lib/figures/explanation'
import { amount } from '../../../../lib/text/decimals'
import { t } from '../../../../lib/text/text'

type Margin = Shape<'MarginOut'>
const MOST_NOTED = 2

/**
 * Returns the notes under the margin: the profit and its price, unless a cost is unknown; the margins of two prices,
 * the floor, and unknown costs.
 */
export function marginNotes(margin: Margin, exponent: number): string[] {
  const { percent, profit, floor_percent, below, words, prices } = margin
  const unknown = percent === null && words.length > 0
  const earned = prices.length ? 'quote.margin.profit.lowest' : 'quote.margin.profit'
  return [
    ...(unknown ? [] : [t(earned, { amount: amount(profit, exponent) })]),
    ...(prices.length && prices.length <= MOST_NOTED ? [prices.join('; ')] : []),
    ...(floor_percent === null
      ? []
      : [t(below ? 'quote.margin.below' : 'quote.margin.floor', { rate: floor_percent })]),
    ...words,
  ]
}

/** Returns how the margin was worked out, with that of each price. */
export function marginHow({ how, prices }: Margin): ExplanationText {
  return { ...how, rule: [...how.rule, ...prices] }
}
