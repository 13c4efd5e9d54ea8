// The prices of a quote while something of the vehicle is not recorded: one line a price.
import { amount } from '../../../../lib/text/decimals'
import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'

export type PossiblePrice = NonNullable<Quote['undecided']>['prices'][number]
type Told = Pick<Quote, 'undecided' | 'totals' | 'exponent' | 'range'>
type Open = Pick<Quote, 'undecided' | 'range'>

export interface PriceLine {
  figure: string
  words: string
}

/** One line a price that can be accepted; a range where they are too many; the total alone where nothing is open. */
export function priceLines({ undecided, totals, exponent, range }: Told): PriceLine[] {
  const prices = fitting(undecided)
  if (prices.length) return prices.map((price) => line(price.gross, exponent, price.words))
  if (undecided && !undecided.prices.length && range) return [rangeLine(range)]
  return [line(totals.gross, exponent, '')]
}

/** What stands under a total that is open: the range where too many prices are possible to list; nothing under prices. */
export function openWords({ undecided, range }: Open): string[] {
  if (!undecided || undecided.prices.length) return []
  return [range?.words || undecided.title]
}

/** Two lines at most, for the bar and the counterfoil: the lowest and the highest where there are more prices. */
export function barLines(quote: Told): PriceLine[] {
  const lines = priceLines(quote)
  if (lines.length < 3) return lines
  const { undecided, exponent } = quote
  const sorted = fitting(undecided).sort((a, b) => (digits(a.gross) < digits(b.gross) ? -1 : 1))
  const [lowest = '', highest = ''] = [sorted[0]?.gross, sorted.at(-1)?.gross]
  return [
    line(lowest, exponent, t('quote.thumb.lowest', { n: sorted.length })),
    line(highest, exponent, t('quote.thumb.highest')),
  ]
}

/** The half day of all prices where they share it; null where they differ or one has none. */
export function commonReady(prices: readonly Pick<PossiblePrice, 'ready'>[]): string | null {
  const [first, ...others] = prices.map(({ ready }) => ready)
  return first && others.length && others.every((ready) => ready === first) ? first : null
}

const fitting = (undecided: Told['undecided']) => (undecided?.prices ?? []).filter(({ unfit }) => !unfit)
/** Amounts of one currency have as many decimal places, so their digits alone say which is more. */
const digits = (gross: string) => BigInt(gross.replace('.', ''))
const line = (gross: string, exponent: number, words: string) => ({ figure: amount(gross, exponent), words })

function rangeLine({ low, high }: NonNullable<Told['range']>): PriceLine {
  return { figure: t('quote.thumb.range', { low: amount(low), high: amount(high) }), words: '' }
}
