// The changes to a draft, each with the change that undoes it.
import { type Answer, write } from '../../../lib/api/client'
import type { Shape } from '../../../lib/api/types'
import type { Here } from '../../../lib/job/arrival'
import { day } from '../../../lib/text/dates'
import { t } from '../../../lib/text/text'
import type { Change, Quote } from './draft.svelte'
import { conditionWord } from './lines/conditionWord'

export type QuotedKit = Quote['kits'][number]
export type Extra = Quote['extras'][number]
export type OverrideValue = { value: string; because: string }
export type DiscountTerms = { percent: string | null; amount: string | null; because: string }
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

export function addKit(kit: { id: string; title: string }, own: OverrideValue | null = null): Change {
  return {
    says: t('quote.did.add', { title: kit.title }),
    at: 'kits',
    send: async (_match, now) => {
      const answer = await add(now, { kind: 'kit', kit: kit.id })
      const line = answer.ok && own ? newKit(now, answer.data) : undefined
      if (!answer.ok || !own || !line) return answer
      return write('put', figure, { id: now.id, key: line.key }, own, { match: answer.etag })
    },
    undo: (before, after) => {
      const line = newKit(before, after)
      return line ? removeKit(line) : null
    },
  }
}

function newKit(before: Quote, after: Quote): QuotedKit | undefined {
  const lines = new Set(before.kits.map((kit) => kit.line))
  return after.kits.find((kit) => !lines.has(kit.line))
}

export function removeKit(kit: QuotedKit): Change {
  return {
    says: t('quote.did.take_off', { title: kit.title }),
    at: 'kits',
    send: (match, now) => write('delete', linePath, { id: now.id, line: kit.line }, undefined, { match }),
    undo: () => addKit({ id: kit.kit, title: kit.title }, kit.override),
  }
}

/** Sets whether this workshop has fitted the kit before: then its hours are not those of a first fit. */
export function setFittedBefore(kit: QuotedKit, fitted_before: boolean): Change {
  return {
    says: t(fitted_before ? 'quote.did.fitted_before' : 'quote.did.first_fit', { title: kit.title }),
    at: 'kits',
    send: (match, now) =>
      write('patch', linePath, { id: now.id, line: kit.line }, { fitted_before }, { match }),
    undo: () => setFittedBefore(kit, !fitted_before),
  }
}

export function setOverride(of: Figure, own: OverrideValue): Change {
  return {
    says: t('quote.did.figure', { title: of.title }),
    at: of.key,
    send: (match, now) => write('put', figure, { id: now.id, key: of.key }, own, { match }),
    undo: () => (of.override ? setOverride({ ...of, override: own }, of.override) : removeOverride(of, own)),
  }
}

export function removeOverride(of: Figure, was = of.override): Change {
  return {
    says: t('quote.did.recompute', { title: of.title }),
    at: of.key,
    send: (match, now) => write('delete', figure, { id: now.id, key: of.key }, undefined, { match }),
    undo: () => (was ? setOverride({ ...of, override: null }, was) : null),
  }
}

export function setDiscount({ percent, amount, because }: DiscountTerms): Change {
  return {
    says: t('quote.did.discount'),
    at: 'discount',
    send: (match, now) => write('put', discount, { id: now.id }, { percent, amount, because }, { match }),
    undo: (before) => (before.discount ? setDiscount(before.discount) : removeDiscount()),
  }
}

export function removeDiscount(): Change {
  return {
    says: t('quote.did.no_discount'),
    at: 'discount',
    send: (match, now) => write('delete', discount, { id: now.id }, undefined, { match }),
    undo: (before) => (before.discount ? setDiscount(before.discount) : null),
  }
}

export function setCondition(condition: string): Change {
  return {
    says: t('quote.did.condition', { condition: conditionWord(condition) }),
    at: 'labour',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { condition }, { match }),
    undo: (before) => setCondition(before.condition),
  }
}

/** Sets when the vehicle comes: it is here, on a day, or no answer. */
export function setHere({ here, here_from }: Here): Change {
  const named = here_from ? t('quote.did.here_from', { day: day(here_from) }) : t('quote.did.no_day')
  return {
    says: here ? t('quote.did.here') : named,
    at: 'ready',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { here, here_from }, { match }),
    undo: ({ here, here_from }) => setHere({ here, here_from }),
  }
}

/** Sets the workshop's note on the quote, which no customer reads. */
export function setNote(note: string): Change {
  return {
    says: t('quote.did.note'),
    at: 'note',
    send: (match, now) => write('patch', 'quotes/{id}', { id: now.id }, { note }, { match }),
    undo: (before) => setNote(before.note),
  }
}

export function setCustomer(customer: { id: string; name: string } | null): Change {
  return {
    says: t('quote.did.customer', { name: customer?.name ?? t('quote.box.nobody') }),
    send: (match, now) =>
      write('patch', 'quotes/{id}', { id: now.id }, { customer: customer?.id ?? null }, { match }),
    undo: (before) => setCustomer(before.customer),
  }
}

/** Sets the vehicle. The server adds its owner to a quote without a customer; Undo removes both. */
export function setVehicle(
  vehicle: { id: string; title: string } | null,
  also: { customer?: string | null } = {},
): Change {
  return {
    says: t('quote.did.vehicle', { title: vehicle?.title ?? t('quote.box.no_vehicle') }),
    send: (match, now) =>
      write('patch', 'quotes/{id}', { id: now.id }, { vehicle: vehicle?.id ?? null, ...also }, { match }),
    undo: (before) => setVehicle(before.vehicle, { customer: before.customer?.id ?? null }),
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
    undo: (before, after) => {
      const lines = new Set(before.extras.map((extra) => extra.line))
      const added = after.extras.find((extra) => !lines.has(extra.line))
      return added ? removeExtra(added) : null
    },
  }
}

/** Removes a further line. Undo adds it as a hand-written one with the same price. */
export function removeExtra(extra: Extra): Change {
  return {
    says: t('quote.did.take_off', { title: extra.title }),
    at: extra.line,
    send: (match, now) => write('delete', linePath, { id: now.id, line: extra.line }, undefined, { match }),
    undo: () => addText(writtenOf(extra)),
  }
}

export function changeExtra(extra: Extra, to: Partial<ReturnType<typeof fieldsOf>>): Change {
  return {
    says: t('quote.did.change', { title: extra.title }),
    at: extra.line,
    send: (match, now) => write('patch', linePath, { id: now.id, line: extra.line }, to, { match }),
    undo: (before) => {
      const was = before.extras.find((candidate) => candidate.line === extra.line)
      return was ? changeExtra(extra, fieldsOf(was)) : null
    },
  }
}

function writtenOf({ title, quantity, unit_price, tax_class }: Extra) {
  return { title, quantity, unit_price, tax_class }
}

function fieldsOf(extra: Extra) {
  const { condition, original } = extra
  return condition
    ? { ...writtenOf(extra), part_condition: condition, original: !!original }
    : writtenOf(extra)
}

function add(now: Quote, line: { kind: 'kit'; kit: string } | Line): Promise<Answer<Quote>> {
  return write('post', lines, { id: now.id }, { quantity: '1', ...line })
}

/** Replaces a decimal comma by a point. The server reports other mistakes. */
export function typed(figure: string): string {
  return figure.trim().replace(',', '.')
}
