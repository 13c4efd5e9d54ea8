import type { Shape } from '../../../lib/api/types'
import { session } from '../../../lib/app/session.svelte'
import { dated, moment } from '../../../lib/text/dates'
import { t } from '../../../lib/text/text'

type Webhook = Shape<'WebhookOut'>
type Message = Shape<'WebhookMessageOut'>
type Event = Message['event']
export type ChosenEvent = Exclude<Event, 'trial'>

const CHOSEN = {
  'quote.sent': 'webhooks.event.quote_sent',
  'quote.withdrawn': 'webhooks.event.quote_withdrawn',
  'quote.accepted': 'webhooks.event.quote_accepted',
  'quote.declined': 'webhooks.event.quote_declined',
  'job.state_changed': 'webhooks.event.job_state_changed',
  'pull_list.state_changed': 'webhooks.event.pull_list_state_changed',
  'payment.recorded': 'webhooks.event.payment_recorded',
} as const satisfies Record<ChosenEvent, string>

/** The events that a manager chooses from, in the order of the form. */
export const EVENTS = Object.keys(CHOSEN) as ChosenEvent[]

export function eventWords(event: Event): string {
  return t(event === 'trial' ? 'webhooks.event.trial' : CHOSEN[event])
}

/** Whether a person has to look: messages did not arrive, or it was switched off by something else than a person. */
export function needsPerson(webhook: Webhook): boolean {
  return webhook.failed > 0 || (webhook.off !== null && webhook.off !== 'manager')
}

/** The facts of a webhook in words, what needs a person first. */
export function webhookFacts(webhook: Webhook): string[] {
  const day = dated(webhook.made_at, session.shop?.zone)
  return [
    ...(webhook.off ? [t(`webhooks.off.${webhook.off}`)] : []),
    ...(webhook.failed ? [t('webhooks.failed', { n: webhook.failed })] : []),
    ...(webhook.waiting ? [t('webhooks.waiting', { n: webhook.waiting })] : []),
    t('webhooks.by', { name: webhook.by, day }),
  ]
}

/** Says whether a message arrived, waits or failed, and why. */
export function messageFacts(message: Message): string[] {
  const { state, tries, http_status, reason, next_try_at, done_at } = message
  const zone = session.shop?.zone
  const retried = state === 'waiting' && tries > 0
  const now = done_at ? t('webhooks.log.done', { when: moment(done_at, zone) }) : ''
  return [
    ...(now ? [now] : retried || state === 'done' ? [] : [t(`webhooks.log.${state}`)]),
    ...(reason ? [t(`webhooks.why.${reason}`)] : []),
    ...(http_status === null ? [] : [t('webhooks.log.answer', { status: String(http_status) })]),
    ...(tries ? [t('webhooks.log.tries', { n: tries })] : []),
    ...(retried && next_try_at ? [t('webhooks.log.next', { when: moment(next_try_at, zone) })] : []),
  ]
}
