/** The key of the sentence for a value that the browser refuses. Of our fields only "email" can mismatch its type. */
export function refusalKey(validity: Pick<ValidityState, 'valueMissing' | 'typeMismatch'>, fromList = false) {
  if (validity.valueMissing) return fromList ? 'field.unchosen' : 'field.missing'
  return validity.typeMismatch ? 'field.email' : 'field.wrong'
}
