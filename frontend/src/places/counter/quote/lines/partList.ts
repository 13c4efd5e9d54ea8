// Lists of part numbers that are pasted, typed or scanned.
import { write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { t } from '../../../../lib/text/text'
import type { Change } from '../draft.svelte'

export type PartList = Shape<'PartListOut'>

/** Adds every row of a list that the server has read; the server adds none where a row is wrong. */
export function addPartList(text: string, n: number): Change {
  return {
    says: t('quote.did.list', { n }),
    at: 'list',
    send: (_match, now) => write('post', 'quotes/{id}/part-list', { id: now.id }, { text }),
  }
}

/** Adds the part of a number that was typed in whole or scanned, with its quantity if there is one. */
export function addNumber(number: string): Change {
  return {
    says: t('quote.did.add', { title: number }),
    at: 'add',
    send: (_match, now) => write('post', 'quotes/{id}/part-list', { id: now.id }, { text: number }),
  }
}

/** Returns whether pasted text is a list: it has several lines, or cells of a spreadsheet. */
export function isList(text: string): boolean {
  return /[\n\t]/.test(text.trim())
}
