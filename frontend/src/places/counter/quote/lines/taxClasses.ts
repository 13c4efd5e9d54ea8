// The tax classes of a line as a list to choose from.
import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'

type TaxClass = Quote['rules']['tax_classes'][number]

/** The classes that a person writes lines of; fees, fluids and the like come from kits and price rules. */
const USUAL = ['labour', 'part', 'outside work', 'outside']

/**
 * Returns the usual classes first, `first` foremost, then the others in a group of their own; each with its rate. The
 * order of the rules stays where they name no usual class.
 */
export function taxClassChoices(classes: readonly TaxClass[], first?: string) {
  const rank = ({ code }: TaxClass) => (code === first ? -1 : USUAL.indexOf(code))
  const usual = classes.filter(({ code }) => USUAL.includes(code)).sort((a, b) => rank(a) - rank(b))
  const others = classes.filter(({ code }) => !USUAL.includes(code))
  const choice = ({ code, words }: TaxClass) => ({ value: code, label: words })
  if (!usual.length) return others.map(choice)
  const group = t('quote.text.tax_class.others')
  return [...usual.map(choice), ...others.map((other) => ({ ...choice(other), group }))]
}
