// The changes to a draft.
import { type Answer, write } from '../../../lib/api/client'
import type { Shape } from '../../../lib/api/types'
import type { Here } from '../../../lib/job/arrival'
import { day } from '../../../lib/text/dates'
import { t } from '../../../lib/text/text'
import { conditionWord } from './conditionWord'
import type { Change, Quote } from './draft.svelte'

export type QuotedKit = Quote['kits'][number]
export type Extra = Quote['extras'][number]
type OverrideValue = { value: string; because: string }
export type DiscountTerms = { percent: string | null; amount: string | null; because: string }
export type ExtraFields = Shape<'PatchedLineChangeRequest'>
type Line = Shape<'LineInRequest'>

/** A figure of the quote that a person may override. */
export interface Figure {
  key: string
  title: string
  override: OverrideValue | null
}

const lines = 'quotes/{id}/lines' as const
const linePath = 'quotes/{id}/lines/{line}' as const
const figure = 'quotes/{id}/overrides/{key}' as const
const discount = 'quotes/{id}/discount' as const

export function addKit(kit: { id: string; title: string }): Change {
  return {
    says: t('quote.did.add', { title: kit.title }),
    at: 'kits',
    send: (_match, now) => add(now, { kind: 'kit', kit: kit.id }),
  }
}

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

export function addPart(part: { id: string; title: string }): Change {
  return addLine({ kind: 'part', part: part.id, quantity: '1' }, part.title)
}

export function addText(line: Omit<Line, 'kind'> & { title: string }): Change {
  return addLine({ kind: 'text', ...line }, line.title)
}

function addLine(line: Line, title: string): Change {
  return {
    says: t('quote.did.add', { title }),
    at: 'add',
    send: (_match, now) => add(now, line),
  }
}

export function removeExtra(extra: Extra): Change {
  return {
    says: t('quote.did.take_off', { title: extra.title }),
    at: extra.line,
    send: (match, now) => write('delete', linePath, { id: now.id, line: extra.line }, undefined, { match }),
  }
}

export function changeExtra(extra: Extra, to: ExtraFields): Change {
  return {
    says: t('quote.did.change', { title: extra.title }),
    at: extra.line,
    value: [to.title, to.quantity, to.unit_price].filter(Boolean).join(', '),
    send: (match, now) => write('patch', linePath, { id: now.id, line: extra.line }, to, { match }),
  }
}

function add(now: Quote, line: { kind: 'kit'; kit: string } | Line): Promise<Answer<Quote>> {
  return write('post', lines, { id: now.id }, { quantity: '1', ...line })
}
