// The wishes about a draft's price rules, each with the one that takes it back.
import { write } from '../../../../lib/api/client'
import { dated } from '../../../../lib/text/dates'
import { t } from '../../../../lib/text/text'
import type { Change } from '../draft.svelte'

/** Price the draft by the rules in force, or by those that they replaced. */
export function useRules(rules: number, day: string, condition?: string): Change {
  const also = condition === undefined ? {} : { condition }
  return {
    says: t('quote.did.rules', { day }),
    at: 'rules',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { rules, ...also }, { match }),
    back: (before) => useRules(before.rules.number, dated(before.rules.valid_from), before.condition),
  }
}

/** Keep the draft's own rules: it does not offer the newer ones again, or (null) does. */
export function declineRules(rules_declined: number | null): Change {
  return {
    says: t(rules_declined ? 'quote.did.rules_kept' : 'quote.did.rules_offered'),
    at: 'rules',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { rules_declined }, { match }),
    back: ({ rules: { newer } }) => declineRules(newer?.declined ? newer.number : null),
  }
}
