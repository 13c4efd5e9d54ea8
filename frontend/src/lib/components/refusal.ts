/**
 * The key of the sentence for a value that the browser refuses. Of our fields only "email" can mismatch its type, and
 * only those of digits have a pattern.
 */
export function refusalKey(
  validity: Pick<ValidityState, 'valueMissing' | 'typeMismatch' | 'patternMismatch'>,
  kind?: 'list' | 'date',
) {
  if (validity.valueMissing && kind === 'date') return 'field.day_missing'
  if (validity.valueMissing) return kind === 'list' ? 'field.unchosen' : 'field.missing'
  if (validity.patternMismatch) return 'field.digits'
  return validity.typeMismatch ? 'field.email' : 'field.wrong'
}

/** Returns the words of the present refusal: a browser's refusal of this value is newer than that of the last request. */
export function presentRefusal(
  value: string,
  ofBrowser: { value: string; words: string } | null,
  ofRequest: string | undefined,
): string | undefined {
  return ofBrowser?.value === value ? ofBrowser.words : ofRequest
}
