// The changes of what a draft charges only if it happens.
import { write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'

export type Contingency = NonNullable<Quote['contingencies']>[number]
export type ContingencyFields = Shape<'ContingencyChangeRequest'>
/** A line of the draft that a change is about. */
type ChangedLine = { line: string; title: string }

const listPath = 'quotes/{id}/contingencies' as const
const onePath = 'quotes/{id}/contingencies/{line}' as const
const linePath = 'quotes/{id}/lines/{line}' as const

/** Adds a line; the form asks for the event and the cap of each. */
export function addContingency({
  event = '',
  cap = 1,
  quantity = '1',
  unit_price,
  ...fields
}: ContingencyFields): Change {
  const price = unit_price ? { unit_price } : {}
  return {
    says: t('quote.did.add', { title: fields.title ?? event }),
    at: 'add',
    send: (_match, now) =>
      write('post', listPath, { id: now.id }, { event, cap, quantity, ...price, ...fields }),
  }
}

/** Changes the line; a part or a hand-written line in the total is charged only if it happens from then on. */
export function changeContingency(changed: ChangedLine, to: ContingencyFields): Change {
  return {
    says: t('quote.did.change', { title: changed.title }),
    at: changed.line,
    value: [to.event, to.title, to.quantity, to.unit_price, to.cap && `× ${to.cap}`]
      .filter(Boolean)
      .join(', '),
    send: (match, now) => write('patch', onePath, { id: now.id, line: changed.line }, to, { match }),
  }
}

/** Puts the line into the total. */
export function chargeInAnyCase(changed: ChangedLine): Change {
  return {
    says: t('quote.did.change', { title: changed.title }),
    at: changed.line,
    send: (match, now) => write('delete', onePath, { id: now.id, line: changed.line }, undefined, { match }),
  }
}

export function removeContingency(changed: ChangedLine): Change {
  return {
    says: t('quote.did.take_off', { title: changed.title }),
    at: changed.line,
    send: (match, now) => write('delete', linePath, { id: now.id, line: changed.line }, undefined, { match }),
  }
}
