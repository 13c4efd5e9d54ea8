// Explains the sold hours of a job.
import type { Shape } from '../../../lib/api/types'
import type { ExplanationText } from '../../../lib/figures/explanation'
import { isNothing, tenths } from '../../../lib/text/decimals'
import { t } from '../../../lib/text/text'
import type { Step } from './stages'

/** Returns the worked numbers of a step. An older job without them has the reasons only; null if it has neither. */
export function hoursExplained(step: Step): ExplanationText | null {
  if (step.how) return step.how
  if (!step.why.length) return null
  return {
    title: step.title,
    rule: [t('bay.how.once'), t('bay.how.factors'), t('bay.how.tenths')],
    steps: [
      { words: t('bay.how.kits', { n: step.kits.length }), figure: step.kits.join(', ') },
      ...[...new Set(step.why)].map((words) => ({ words, figure: '' })),
    ],
    result: t('unit.hours', { n: tenths(step.hours) }),
  }
}

/** Returns the hours of the job as the sum of its steps. Leaves out steps without hours. */
export function totalExplained(job: Pick<Shape<'JobOut'>, 'hours' | 'operations'>): ExplanationText {
  return {
    title: t('bay.hours'),
    rule: [t('bay.how.total'), t('bay.how.total.once')],
    steps: job.operations
      .filter((step) => !isNothing(step.hours))
      .map((step) => ({
        words: t('bay.how.step', step),
        figure: t('unit.hours', { n: tenths(step.hours) }),
      })),
    result: t('unit.hours', { n: tenths(job.hours) }),
  }
}
