// The changes of the labour that an advisor puts on a draft.
import { write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'

type QuotedOperation = Quote['labour']['operations'][number]
type Labour = Pick<Shape<'LineInRequest'>, 'operation' | 'title' | 'skill' | 'hours'>

/** Adds an operation of the list with its own hours, or hours at the rate of a skill. */
export function addLabour(labour: Labour & { title: string }): Change {
  const { title, operation } = labour
  const line = operation ? { operation } : labour
  return {
    says: t('quote.did.add', { title }),
    at: 'add',
    send: (_match, now) =>
      write('post', 'quotes/{id}/lines', { id: now.id }, { kind: 'labour', quantity: '1', ...line }),
  }
}

/** Removes labour that was added; the same operation stays if kits need it. */
export function removeLabour(title: string, line: string): Change {
  return {
    says: t('quote.did.take_off', { title }),
    at: 'labour',
    send: (match, now) =>
      write('delete', 'quotes/{id}/lines/{line}', { id: now.id, line }, undefined, { match }),
  }
}

/** Returns the labour lines of the draft, in the order of the work. */
export function labourLines(operations: readonly QuotedOperation[]): { line: string; title: string }[] {
  return operations.flatMap(({ title, lines = [] }) => lines.map((line) => ({ line, title })))
}
