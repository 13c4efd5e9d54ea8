// The second line of what a phone keeps in sight of a quote.
import type { Shape } from '../../../lib/api/types'
import { day } from '../../../lib/dates'
import { t } from '../../../lib/text'
import type { Quote } from './draft.svelte'
import { percent } from './percent'

type Told = Pick<Quote, 'editable' | 'stops' | 'decide' | 'notices' | 'labour' | 'promise'>
type Margin = Pick<Shape<'MarginOut'>, 'rate' | 'words'>

const SHORT = 48

/** What is still to be settled of a draft, else hours, margin and date; no margin where some cost is not known. */
export function thumbWords(quote: Told, margin?: Margin): string {
  const { hours } = quote.labour
  const n = quote.editable ? toSettle(quote) : 0
  const [stop = ''] = quote.stops
  if (n === 1 && stop && stop.length < SHORT) return stop
  if (n) return t(n === quote.stops.length ? 'quote.thumb.stops' : 'quote.thumb.settle', { n })
  const told =
    !margin?.rate || margin.words.length
      ? t('quote.thumb.hours', { hours })
      : t('quote.thumb.why', { hours, margin: percent(margin.rate) })
  return quote.promise ? t('quote.thumb.ready', { told, day: day(quote.promise.ready.day) }) : told
}

/** What stops the quote, what nobody has stated and what is worth knowing, each sentence once. */
function toSettle({ stops, decide, notices }: Told): number {
  return new Set([...stops, ...[...decide, ...notices].map(({ words }) => words)]).size
}
