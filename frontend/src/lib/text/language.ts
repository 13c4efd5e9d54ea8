// Numbers, dates and plurals in the reader's language, which the server sends with the shop.

export let tag = 'en-GB'
export let numbers = new Intl.NumberFormat(tag)
export let plurals = new Intl.PluralRules(tag)
/** The decimal point or comma. */
export let point = '.'

/** Sets the language of everything formatted from now on. A copy kept by an older build has none. */
export function setLanguage(language = 'en-GB'): void {
  if (language === tag) return
  tag = language
  numbers = new Intl.NumberFormat(tag)
  plurals = new Intl.PluralRules(tag)
  point = numbers.formatToParts(1.1).find((part) => part.type === 'decimal')?.value ?? '.'
  if (typeof document !== 'undefined') document.documentElement.lang = tag
}
