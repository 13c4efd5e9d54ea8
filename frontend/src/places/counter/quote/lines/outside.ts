// The changes to work of other firms. Markup is per cent on the screen and a share on the server.
import { write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { t } from '../../../../lib/text/text'
import { typed } from '../changes'
import type { Change, Quote } from '../draft.svelte'
import { percent } from '../prices/percent'

export type Work = Quote['outside'][number]
export type Terms = Shape<'OutsideTermsOut'>

const all = 'quotes/{id}/outside' as const
const linePath = 'quotes/{id}/outside/{line}' as const

/**
 * Converts per cent to a share by moving the point: "17.5" gives "0.175". The server refuses text that is not a
 * number.
 */
export function share(markup: string): string {
  const figure = typed(markup)
  const [, whole = '', rest = ''] = /^(\d+)(?:\.(\d+))?$/.exec(figure) ?? []
  if (!whole) return figure || '0'
  const digits = whole.padStart(3, '0')
  return `${digits.slice(0, -2)}.${digits.slice(-2)}${rest}`
}

/** Converts a share to per cent: "0.175" gives "17.5". */
export function percentOf(markup: string): string {
  return percent(markup).replace(/\.?0+$/, '')
}

export function addOutside(terms: Terms): Change {
  return {
    says: t('quote.did.add', { title: terms.title }),
    at: 'add',
    send: (_match, now) => write('post', all, { id: now.id }, terms),
  }
}

export function changeOutside(work: Work, to: Terms): Change {
  return {
    says: t('quote.did.change', { title: work.name }),
    at: work.line,
    send: (match, now) => write('put', linePath, { id: now.id, line: work.line }, to, { match }),
  }
}

export function removeOutside(work: Work): Change {
  return {
    says: t('quote.did.take_off', { title: work.name }),
    at: work.line,
    send: (match, now) =>
      write('delete', 'quotes/{id}/lines/{line}', { id: now.id, line: work.line }, undefined, { match }),
  }
}
