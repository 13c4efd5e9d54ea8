// The sentence on the date that a customer counts on, beside the one that is expected now.
import type { Shape } from '../../../lib/api/types'
import { t } from '../../../lib/text/text'

export type ToldDates = Shape<'ToldDatesOut'>
export interface ToldForm {
  day: string
  half: 'morning' | 'afternoon'
  words: string
}

/** The form as it begins: the half day that is expected now, and the drafted sentence. */
export const begun = (dates: ToldDates): ToldForm => ({
  day: dates.expected?.day ?? '',
  half: dates.expected?.half ?? 'afternoon',
  words: dates.draft,
})

export function dateWords(dates: ToldDates): string {
  const before = dates.counted_on?.words
  const when = dates.expected?.words
  if (!before) return when && dates.moved ? t('told.new_date', { when }) : t('told.none')
  if (!dates.moved) return t('told.same', { when: before })
  return when ? t('told.moved', { before, when }) : t('told.no_date', { before, why: dates.no_date ?? '' })
}
