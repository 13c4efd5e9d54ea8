// How the reader's language writes numbers, days and plurals. The server says which it is, with the shop.

export let tag = 'en-GB'
export let numbers = new Intl.NumberFormat(tag)
export let plurals = new Intl.PluralRules(tag)
/** Between whole numbers and decimals. */
export let point = '.'

/** From now on everything is written in this language; a copy of before languages has none. */
export function speak(language = 'en-GB'): void {
  if (language === tag) return
  tag = language
  numbers = new Intl.NumberFormat(tag)
  plurals = new Intl.PluralRules(tag)
  point = numbers.formatToParts(1.1).find((part) => part.type === 'decimal')?.value ?? '.'
  if (typeof document !== 'undefined') document.documentElement.lang = tag
}
