// The address that a hit leads to: its own screen, or the quotes that contain it.
import { address } from '../../../lib/app/links'
import { session } from '../../../lib/app/session.svelte'
import type { Hit } from './finder.svelte'

/** Returns the screen of a quote or a job; for another firm's work, the newest quote with it. */
export function screenOf({ kind, id }: Pick<Hit, 'kind' | 'id'>): string | undefined {
  if (kind === 'quote' || kind === 'outside') return address.quote(id)
  return kind === 'job' ? address.job(id) : undefined
}

/** Returns the list of quotes with a customer, vehicle, kit or part, if the person may see quotes. */
export function quotesOf({ kind, id }: Pick<Hit, 'kind' | 'id'>): string | undefined {
  if (!session.quotes || kind === 'quote' || kind === 'outside' || kind === 'job') return undefined
  return address.quotesOf(kind, id)
}
