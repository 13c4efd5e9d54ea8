// The changes to the prices of a draft: a person's own figures and the discount.
import { write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change } from '../draft.svelte'

type OverrideValue = { value: string; because: string }
export type DiscountTerms = { percent: string | null; amount: string | null; because: string }

/** A figure of the quote that a person may override. */
export interface Figure {
  key: string
  title: string
  override: OverrideValue | null
}

const figure = 'quotes/{id}/overrides/{key}' as const
const discount = 'quotes/{id}/discount' as const

export function setOverride(of: Figure, own: OverrideValue): Change {
  return {
    says: t('quote.did.figure', { title: of.title }),
    at: of.key,
    value: own.value,
    send: (match, now) => write('put', figure, { id: now.id, key: of.key }, own, { match }),
  }
}

export function removeOverride(of: Figure): Change {
  return {
    says: t('quote.did.recompute', { title: of.title }),
    at: of.key,
    send: (match, now) => write('delete', figure, { id: now.id, key: of.key }, undefined, { match }),
  }
}

export function setDiscount({ percent, amount, because }: DiscountTerms): Change {
  return {
    says: t('quote.did.discount'),
    at: 'discount',
    value: percent ? `${percent} %` : (amount ?? ''),
    send: (match, now) => write('put', discount, { id: now.id }, { percent, amount, because }, { match }),
  }
}

export function removeDiscount(): Change {
  return {
    says: t('quote.did.no_discount'),
    at: 'discount',
    send: (match, now) => write('delete', discount, { id: now.id }, undefined, { match }),
  }
}
