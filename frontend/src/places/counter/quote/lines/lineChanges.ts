// The changes to the lines of a draft.
import { type Answer, write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'

export type Extra = Quote['extras'][number]
export type ExtraFields = Shape<'LineChangeRequest'>
type Line = Shape<'LineInRequest'>

const lines = 'quotes/{id}/lines' as const
const linePath = 'quotes/{id}/lines/{line}' as const

export function addKit(kit: { id: string; title: string }): Change {
  return {
    says: t('quote.did.add', { title: kit.title }),
    at: 'kits',
    send: (_match, now) => add(now, { kind: 'kit', kit: kit.id }),
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
