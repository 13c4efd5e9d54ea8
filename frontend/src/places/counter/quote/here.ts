// What is to be said where a person types the day the vehicle comes.
import { day } from '../../../lib/dates'
import type { Quote } from './draft.svelte'

type Told = Pick<Quote, 'here_from' | 'promise' | 'notices'>

/** The server's sentence on a day that is over. */
export function pastWords({ notices }: Pick<Told, 'notices'>): string | null {
  return notices.find(({ code }) => code === 'here_from_past')?.words ?? null
}

/** On a closed day: that day, and the one from which the vehicle counts as here; both in words. */
export function closedDay({ here_from, promise }: Told, zone?: string): { day: string; from: string } | null {
  if (!here_from || !promise) return null
  const from = promise.since
  const shown = promise.days.find((each) => each.day === here_from)
  return shown && !shown.opens ? { day: day(here_from), from: day(from, zone) } : null
}
