// The changes to a draft. Those that lazy parts alone make stand beside these parts.
import { write } from '../../../lib/api/client'
import type { Here } from '../../../lib/job/arrival'
import { day } from '../../../lib/text/dates'
import { t } from '../../../lib/text/text'
import { conditionWord } from './conditionWord'
import type { Change, Quote } from './draft.svelte'

export type QuotedKit = Quote['kits'][number]

const linePath = 'quotes/{id}/lines/{line}' as const

export function removeKit(kit: QuotedKit): Change {
  return {
    says: t('quote.did.take_off', { title: kit.title }),
    at: 'kits',
    send: (match, now) => write('delete', linePath, { id: now.id, line: kit.line }, undefined, { match }),
  }
}

/** Sets whether this workshop has fitted the kit before: then its hours are not those of a first fit. */
export function setFittedBefore(kit: QuotedKit, fitted_before: boolean): Change {
  return {
    says: t(fitted_before ? 'quote.did.fitted_before' : 'quote.did.first_fit', { title: kit.title }),
    at: 'kits',
    send: (match, now) =>
      write('patch', linePath, { id: now.id, line: kit.line }, { fitted_before }, { match }),
  }
}

export function setCondition(condition: string): Change {
  return {
    says: t('quote.did.condition', { condition: conditionWord(condition) }),
    at: 'labour',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { condition }, { match }),
  }
}

/** Sets when the vehicle comes: it is here, on a day, or no answer. */
export function setHere({ here, here_from }: Here): Change {
  const named = here_from ? t('quote.did.here_from', { day: day(here_from) }) : t('quote.did.no_day')
  return {
    says: here ? t('quote.did.here') : named,
    at: 'ready',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { here, here_from }, { match }),
  }
}

export interface Notes {
  note: string
  customer_note: string
}

/** Sets the workshop's note on the quote, which no customer reads, and the note to the customer. */
export function setNotes(notes: Notes): Change {
  return {
    says: t('quote.did.note'),
    at: 'note',
    value: `${notes.note}\n${notes.customer_note}`,
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { ...notes }, { match }),
  }
}

export function setCustomer(customer: { id: string; name: string } | null): Change {
  return {
    says: t('quote.did.customer', { name: customer?.name ?? t('quote.box.nobody') }),
    send: (match, now) =>
      write('patch', 'quotes/{id}', { id: now.id }, { customer: customer?.id ?? null }, { match }),
  }
}

/** Sets the vehicle. The server adds its owner to a quote without a customer. */
export function setVehicle(vehicle: { id: string; title: string } | null): Change {
  return {
    says: t('quote.did.vehicle', { title: vehicle?.title ?? t('quote.box.no_vehicle') }),
    send: (match, now) =>
      write('patch', 'quotes/{id}', { id: now.id }, { vehicle: vehicle?.id ?? null }, { match }),
  }
}
