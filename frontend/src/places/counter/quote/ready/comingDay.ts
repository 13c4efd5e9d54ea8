// Words the messages on the day that the vehicle comes.
import { day } from '../../../../lib/text/dates'
import type { Quote } from '../draft.svelte'

type QuoteFields = Pick<Quote, 'here_from' | 'promise' | 'notices'>

/** Returns the server's sentence on a day in the past. */
export function pastWords({ notices }: Pick<QuoteFields, 'notices'>): string | null {
  return notices.find(({ code }) => code === 'here_from_past')?.words ?? null
}

/**
 * Returns a closed day and the next open one, on which the vehicle counts as here, both in words; null for an open
 * day.
 */
export function closedDay({ here_from, promise }: QuoteFields): { day: string; from: string } | null {
  const from = promise?.bring?.day
  return here_from && from && from > here_from ? { day: day(here_from), from: day(from) } : null
}
