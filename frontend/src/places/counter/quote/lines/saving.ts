import { amount, isNothing } from '../../../../lib/text/decimals'
import { t } from '../../../../lib/text/text'
import type { QuotedKit } from '../changes'

/** Words how much less the quote would have without a kit; leaves out a figure that would not change. */
export function savingWords(
  { saves_hours, saves_amount }: Pick<QuotedKit, 'saves_hours' | 'saves_amount'>,
  exponent: number,
): string {
  const hours = less(saves_hours)
  const money = less(saves_amount, exponent)
  if (isNothing(saves_hours)) {
    return isNothing(saves_amount)
      ? t('quote.kit.saves_nothing')
      : t('quote.kit.saves_amount', { amount: money })
  }
  return isNothing(saves_amount)
    ? t('quote.kit.saves_hours', { hours })
    : t('quote.kit.saves', { hours, amount: money })
}

/** Formats a saving as a change: "2.90" gives "−2.90", and "-5.00" gives "+5.00". */
function less(value: string, exponent = 0): string {
  return value.startsWith('-') ? `+${amount(value.slice(1), exponent)}` : amount(`-${value}`, exponent)
}
