// The life of a customer's link: until a day, or as long as its job is open.
import { day } from '../../../../lib/text/dates'
import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'

type Link = Pick<Quote['links'][number], 'revoked_at' | 'expires_at'>

export function isLive({ revoked_at, expires_at }: Link): boolean {
  return !revoked_at && (expires_at === null || new Date(expires_at).getTime() > Date.now())
}

/** Returns the sentence on the link's last day. */
export function lastDay(link: Link, zone: string | undefined): string {
  if (link.expires_at === null) return t('quote.link.with_job')
  return t(isLive(link) ? 'quote.link.until' : 'quote.link.ended', { day: day(link.expires_at, zone) })
}
