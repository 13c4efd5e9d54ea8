import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'

/** Words the parts of this quote that a copy does not get, because they belong to its customer and vehicle. */
export function notCopied(quote: Quote): string[] {
  const { kits, extras, outside, needs, labour, contingencies = [] } = quote
  const figures = [...kits, ...extras, ...outside, ...needs, ...labour.operations, ...contingencies]
  const left: [has: boolean, words: string][] = [
    [quote.discount !== null, t('quote.copied.discount')],
    [figures.some(({ override }) => override), t('quote.copied.figures')],
    [needs.some(({ charged_because }) => charged_because === 'chosen'), t('quote.copied.charges')],
    [Boolean(quote.note || quote.customer_note), t('quote.copied.notes')],
    [quote.condition !== 'none', t('quote.copied.condition')],
    [quote.here || quote.here_from !== null, t('quote.copied.day')],
  ]
  return left.filter(([has]) => has).map(([, words]) => words)
}
