// The prices of a quote while something of the vehicle is not recorded: one line a price.
import { amount } from '../../../lib/money'
import type { Quote } from './draft.svelte'

export type PossiblePrice = NonNullable<Quote['undecided']>['prices'][number]
type Told = Pick<Quote, 'undecided' | 'totals' | 'exponent'>
type Open = Pick<Quote, 'undecided' | 'range'>

export interface PriceLine {
  figure: string
  words: string
}

/** One line a price that can be accepted; the total alone where nothing is open. */
export function priceLines({ undecided, totals, exponent }: Told): PriceLine[] {
  const prices = (undecided?.prices ?? []).filter(({ unfit }) => !unfit)
  if (!prices.length) return [{ figure: amount(totals.gross, exponent), words: '' }]
  return prices.map(({ gross, words }) => ({ figure: amount(gross, exponent), words }))
}

/** What stands under a total that is open: the range where too many prices are possible to list them. */
export function openWords({ undecided, range }: Open): string {
  return (!undecided?.prices.length && range?.words) || (undecided?.title ?? '')
}

/** The vehicle's attributes with those of a price, or null where one of them has no name to record. */
export function attributesWith(known: Record<string, string>, { stated, nameable }: PossiblePrice) {
  if (!nameable) return null
  return { ...known, ...Object.fromEntries(stated.map(({ attribute, value }) => [attribute, value ?? ''])) }
}
