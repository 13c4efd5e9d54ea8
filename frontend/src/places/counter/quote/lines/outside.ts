// The changes to work of other firms. Markup is per cent on the screen and a share on the server.
import { write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { typed } from '../../../../lib/figures/typedDecimal'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'
import { percent } from '../prices/percent'

export type Work = Quote['outside'][number]
export type Terms = Shape<'OutsideTermsOut'>
/** Work that goes with a kit of the draft and is not on it yet. */
export type KitsWork = Shape<'KitsOutsideOut'>

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

export function addOutside(terms: Terms, at = 'add'): Change {
  return {
    says: t('quote.did.add', { title: terms.title }),
    at,
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

/** Returns the place at which a refusal of a kit's outside work is shown. */
export function refusalPlace({ firm, title }: KitsWork): string {
  return `kits-outside:${firm}:${title}`
}

/** Returns the terms for this quote. A step that the quote does not have is left out. */
export function termsFor(quote: Quote, { kit: _kit, line: _line, ...terms }: KitsWork): Terms {
  const onQuote = (code: string) => (stepTitle(quote, code) === undefined ? '' : code)
  return { ...terms, starts_after: onQuote(terms.starts_after), needed_by: onQuote(terms.needed_by) }
}

/** Words the kit that it goes with, by its letter, and the number of rounds. */
export function goesWith(quote: Quote, { kit, line, rounds }: KitsWork): string {
  const letter = quote.kits.find((quoted) => quoted.line === line)?.letter ?? kit
  return rounds
    ? t('quote.kits_outside.kit.rounds', { letter, n: rounds })
    : t('quote.kits_outside.kit', { letter })
}

/** Words how many working days it takes, and from when. */
export function turnaround(quote: Quote, { days: n, starts_after }: KitsWork): string {
  if (n === null) return t('quote.kits_outside.no_days')
  const step = stepTitle(quote, starts_after)
  return step === undefined
    ? t('quote.kits_outside.from_acceptance', { n })
    : t('quote.kits_outside.from_step', { n, step })
}

function stepTitle(quote: Quote, code: string): string | undefined {
  return quote.labour.operations.find(({ key }) => key === `labour:${code}`)?.title
}
