import type { Shape } from '../../../lib/api/types'
import { amount } from '../../../lib/text/decimals'
import { t } from '../../../lib/text/text'

export type Account = Shape<'AccountOut'>
export type Payment = Account['payments'][number]

/** The word of what is still open: to pay, paid in full, to pay back. */
export const dueWord = ({ settled }: Pick<Account, 'settled'>) => t(`account.${settled}`)

/** What is still open, without a sign: `dueWord` says who pays. */
export const dueAmount = ({ due, exponent }: Pick<Account, 'due' | 'exponent'>) =>
  amount(due.replace('-', ''), exponent)

/** The title of a payment: its means, and whether it went back or cancels another one. */
export function paymentTitle({ amount, means, reverses }: Payment): string {
  const by = t(`account.payment.${means}`)
  if (reverses) return t('account.payment.opposite', { means: by })
  return amount.startsWith('-') ? t('account.payment.back', { means: by }) : by
}
