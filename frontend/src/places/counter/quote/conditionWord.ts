import { t } from '../../../lib/text/text'

const KNOWN = ['none', 'light', 'moderate', 'heavy'] as const

/** Returns the word for how corroded the fasteners are; a shop's own code stays as it is. */
export function conditionWord(code: string): string {
  const condition = KNOWN.find((condition) => condition === code)
  return condition ? t(`quote.condition.${condition}`) : code
}
