import type { Shape } from '../../../lib/api/types'
import { t } from '../../../lib/text/text'

type Kit = Shape<'KitOut'>
type Detail = Pick<Kit, 'lines' | 'needs' | 'labour'>

/** Returns what a kit with contents lacks, each as a sentence that says what it would bring. */
export function moreDetail({ lines, needs, labour }: Detail): string[] {
  if (!lines.length) return []
  const withoutStep = lines.filter(({ fitted, operation }) => fitted && !operation).length
  return [
    ...(lines.every(({ kind }) => kind === 'part') ? [t('office.kit.more.bags')] : []),
    ...(labour === null ? [t('office.kit.more.labour')] : []),
    ...(withoutStep ? [t('office.kit.more.steps', { n: withoutStep })] : []),
    ...(needs.length ? [] : [t('office.kit.more.needs')]),
  ]
}
