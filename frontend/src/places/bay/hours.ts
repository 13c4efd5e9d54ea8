// How the hours of a step came about, as they were sold: the rule, and the reasons that hold for this very step.
import type { Explained } from '../../lib/how'
import { plain } from '../../lib/money'
import { t } from '../../lib/text'
import type { Step } from './work'

/** Null where a step has just the hours of its only kit. */
export function hoursExplained(step: Step): Explained | null {
  if (!step.why.length) return null
  return {
    title: step.title,
    rule: [t('bay.how.once'), t('bay.how.factors'), t('bay.how.tenths')],
    steps: [
      { words: t('bay.how.kits', { n: step.kits.length }), figure: step.kits.join(', ') },
      ...[...new Set(step.why)].map((words) => ({ words, figure: '' })),
    ],
    result: t('unit.hours', { n: plain(step.hours) }),
  }
}
