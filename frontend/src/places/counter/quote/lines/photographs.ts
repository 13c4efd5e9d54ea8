// The photographs of a draft's lines.
import { commandId, write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'

export type LinePhotograph = Quote['photographs'][number]

const PHOTOGRAPH = 'quotes/{id}/photographs/{photograph}' as const

/** Returns the lines that can have photographs, in their order on the screen. */
export function linesOf(quote: Quote): { line: string; title: string }[] {
  return [
    ...quote.kits.map(({ line, title }) => ({ line, title })),
    ...quote.outside.map(({ line, name }) => ({ line, title: name })),
    ...quote.extras.map(({ line, title }) => ({ line, title })),
    ...(quote.contingencies ?? []).map(({ line, event }) => ({ line, title: event })),
  ]
}

/** Adds a photograph, made small on this device. A repeat after lost signal is the same command. */
export function addPhotograph(line: string, picture: Blob, caption: string, isPublic: boolean): Change {
  const command = commandId()
  return {
    says: t('quote.did.photograph', { caption }),
    at: 'add',
    send: (_match, now) => {
      const body = new FormData()
      body.set('file', picture, 'photograph.jpg')
      body.set('caption', caption)
      body.set('seen_by', isPublic ? 'customer' : 'workshop')
      return write('post', 'quotes/{id}/lines/{line}/photographs', { id: now.id, line }, body, {
        id: command,
      })
    },
  }
}

/** Shows a photograph to the customer, or keeps it in the workshop. */
export function showPhotograph({ id, caption }: LinePhotograph, isPublic: boolean): Change {
  return {
    says: t(isPublic ? 'quote.did.photograph.show' : 'quote.did.photograph.hide', { caption }),
    at: id,
    send: (match, now) =>
      write('patch', PHOTOGRAPH, { id: now.id, photograph: id }, { shown: isPublic }, { match }),
  }
}

export function removePhotograph({ id, caption }: LinePhotograph): Change {
  return {
    says: t('quote.did.photograph.remove', { caption }),
    at: id,
    send: (match, now) => write('delete', PHOTOGRAPH, { id: now.id, photograph: id }, undefined, { match }),
  }
}
