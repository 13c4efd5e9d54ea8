// The second line of what a phone keeps in sight of a quote. A customer at the counter may read it: no margin.
import { day } from '../../../../lib/text/dates'
import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'

type Told = Pick<Quote, 'editable' | 'stops' | 'to_settle' | 'labour' | 'promise'>

const SHORT = 48

/** The words of the bar: how much is still to be decided on a draft, else its hours; and the date. */
export function thumbWords(quote: Told): string {
  const first = settling(quote) ?? t('quote.thumb.hours', { hours: quote.labour.hours })
  if (!quote.promise) return first
  const { ready, withdrawal } = quote.promise
  return t(withdrawal?.early ? 'quote.thumb.ready_early' : 'quote.thumb.ready', {
    told: first,
    day: day(ready.day),
  })
}

function settling({ editable, stops, to_settle }: Told): string | null {
  const n = editable ? to_settle.length : 0
  const [stop = ''] = stops
  if (n === 1 && stop && stop.length < SHORT) return stop.replace(/\.$/, '')
  return n ? t('quote.thumb.settle', { n }) : null
}
