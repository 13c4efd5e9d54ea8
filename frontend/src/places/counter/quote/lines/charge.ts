import { write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'

export type Need = Quote['needs'][number]

/** Sets how a consumable is charged; null goes back to the price rules and the kits. */
export function setCharge(need: Need, charge: Need['charge'] | null): Change {
  return {
    says: t('quote.did.charge', { title: need.title }),
    at: need.key,
    value: charge ? t(`quote.charge.${charge}`) : '',
    send: (match, now) =>
      write(
        'put',
        'quotes/{id}/charges/{item}',
        { id: now.id, item: need.item ?? '' },
        { charge },
        { match },
      ),
  }
}
