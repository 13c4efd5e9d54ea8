// Words the second line of the totals bar on a phone. Shows no margin: a customer at the counter may read it.
import { day } from '../../../../lib/text/dates'
import { amount } from '../../../../lib/text/decimals'
import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'
import { readyLines } from './possiblePrices'

type QuoteFields = Pick<Quote, 'editable' | 'stops' | 'to_settle' | 'labour' | 'promise' | 'undecided'>

const SHORT = 48

/**
 * Words the number of things still to decide on a draft, else its hours; then the ready date, unless the prices have
 * dates of their own.
 */
export function barWords(quote: QuoteFields): string {
  const hours = quote.undecided?.hours || amount(quote.labour.hours)
  const first = settling(quote) ?? t('quote.bar.hours', { hours })
  if (!quote.promise || readyLines(quote).length) return first
  const { ready, withdrawal } = quote.promise
  return t(withdrawal?.early ? 'quote.bar.ready_early' : 'quote.bar.ready', {
    told: first,
    day: day(ready.day),
  })
}

function settling({ editable, stops, to_settle }: QuoteFields): string | null {
  const n = editable ? to_settle.length : 0
  const [stop = ''] = stops
  if (n === 1 && stop && stop.length < SHORT) return stop.replace(/\.$/, '')
  return n ? t('quote.bar.settle', { n }) : null
}
