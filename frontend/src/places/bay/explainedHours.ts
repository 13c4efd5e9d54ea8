// How the hours of a job came about, as they were sold.
import type { Shape } from '../../lib/api/types'
import type { Explained } from '../../lib/figures/explanation'
import { isNothing, plain } from '../../lib/text/decimals'
import { t } from '../../lib/text/text'
import type { Step } from './stages'

/** The worked numbers of a step; of a job from before they were kept its reasons, null where there is none. */
export function hoursExplained(step: Step): Explained | null {
  if (step.how) return step.how
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

/** The hours of the job: those of its steps. What takes no time of its own is left out. */
export function totalExplained(job: Pick<Shape<'JobOut'>, 'hours' | 'operations'>): Explained {
  return {
    title: t('bay.hours'),
    rule: [t('bay.how.total'), t('bay.how.total.once')],
    steps: job.operations
      .filter((step) => !isNothing(step.hours))
      .map((step) => ({
        words: t('bay.how.step', step),
        figure: t('unit.hours', { n: plain(step.hours) }),
      })),
    result: t('unit.hours', { n: plain(job.hours) }),
  }
}
