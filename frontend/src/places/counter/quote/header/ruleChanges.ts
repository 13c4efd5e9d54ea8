// The changes to a draft's price rules.
import { write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change } from '../draft.svelte'

/** Prices the draft by the rules in force, or by those that they replaced. */
export function useRules(rules: number, day: string): Change {
  return {
    says: t('quote.did.rules', { day }),
    at: 'rules',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { rules }, { match }),
  }
}

/** Keeps the draft's own rules, so that the newer ones are not offered again; null offers them again. */
export function declineRules(rules_declined: number | null): Change {
  return {
    says: t(rules_declined ? 'quote.did.rules_kept' : 'quote.did.rules_offered'),
    at: 'rules',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { rules_declined }, { match }),
  }
}
