import { t } from '../../../../lib/text/text'

const KNOWN = ['none', 'light', 'moderate', 'heavy'] as const

/** How corroded fasteners are called; a code of the shop's own stands as it is. */
export function conditionWord(code: string): string {
  const condition = KNOWN.find((condition) => condition === code)
  return condition ? t(`quote.condition.${condition}`) : code
}
