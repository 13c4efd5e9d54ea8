// The prices of a quote while attributes of the vehicle are not recorded, one line each.
import { amount } from '../../../../lib/text/decimals'
import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'

export type PossiblePrice = NonNullable<Quote['undecided']>['prices'][number]
type QuoteFields = Pick<Quote, 'undecided' | 'totals' | 'exponent' | 'range'>
type Open = Pick<Quote, 'undecided' | 'range'>

interface PriceLine {
  figure: string
  words: string
}

/**
 * Returns one line for each price that can be accepted; a range if they are too many; the total alone if nothing is
 * open.
 */
export function priceLines({ undecided, totals, exponent, range }: QuoteFields): PriceLine[] {
  const prices = fitting(undecided)
  if (prices.length) return prices.map((price) => line(price.gross, exponent, price.words))
  if (undecided && !undecided.prices.length && range) return [rangeLine(range)]
  return [line(totals.gross, exponent, '')]
}

/**
 * Returns the words under an open total: the range if the prices are too many to list; nothing if they are listed.
 */
export function openWords({ undecided, range }: Open): string[] {
  if (!undecided || undecided.prices.length) return []
  return [range?.words || undecided.title]
}

/** Returns at most two lines, for the bar and the totals panel: of several prices the lowest and the highest. */
export function barLines(quote: QuoteFields): PriceLine[] {
  const lines = priceLines(quote)
  if (lines.length < 3) return lines
  const { undecided, exponent } = quote
  const sorted = fitting(undecided).sort((a, b) => (digits(a.gross) < digits(b.gross) ? -1 : 1))
  const [lowest = '', highest = ''] = [sorted[0]?.gross, sorted.at(-1)?.gross]
  return [
    line(lowest, exponent, t('quote.bar.lowest', { n: sorted.length })),
    line(highest, exponent, t('quote.bar.highest')),
  ]
}

/** Returns the half day that all prices share; null if they differ or one has none. */
export function commonReady(prices: readonly Pick<PossiblePrice, 'ready'>[]): string | null {
  const [first, ...others] = prices.map(({ ready }) => ready)
  return first && others.length && others.every((ready) => ready === first) ? first : null
}

/** Returns the half day of each price, in words, where the dates that the screen shows are those of the first alone. */
export function readyLines({ undecided }: Pick<QuoteFields, 'undecided'>): string[] {
  const prices = fitting(undecided)
  if (prices.length < 2 || prices.every(({ ready }) => ready === prices[0]?.ready)) return []
  return prices.map(({ words, ready }) => t('quote.ready.of', { words, day: ready ?? t('quote.ready.none') }))
}

const fitting = (undecided: QuoteFields['undecided']) =>
  (undecided?.prices ?? []).filter(({ unfit }) => !unfit)
/** Returns the digits of an amount. Amounts of one currency have equal decimal places, so digits alone compare. */
const digits = (gross: string) => BigInt(gross.replace('.', ''))
const line = (gross: string, exponent: number, words: string) => ({ figure: amount(gross, exponent), words })

function rangeLine({ low, high }: NonNullable<QuoteFields['range']>): PriceLine {
  return { figure: t('quote.bar.range', { low: amount(low), high: amount(high) }), words: '' }
}
