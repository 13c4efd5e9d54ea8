import { keepText, keptText } from './typedText'

/**
 * Holds the fields of a form. They begin with the values of a row, or with what a person typed in this tab over the
 * same version of the row. Typed text is kept until it is saved.
 */
export class EditedFields<Fields extends object> {
  typed: Fields
  #row = ''
  #begun = ''
  #name = ''

  constructor(empty: Fields) {
    this.typed = $state(empty)
    $effect(() => {
      const now = JSON.stringify(this.typed)
      if (this.#name) keepText(this.#name, now === this.#begun ? '' : JSON.stringify([this.#row, this.typed]))
    })
  }

  /** Begins with the fields of a row, unless the form shows this version of it already. */
  begin(form: string, version: number, fields: Fields): void {
    const row = `${form} ${version}`
    if (row === this.#row) return
    this.#row = row
    this.#name = `edited ${form}`
    this.#begun = JSON.stringify(fields)
    const [storedRow, stored] = JSON.parse(keptText(this.#name) || '[]')
    this.typed = storedRow === row ? { ...fields, ...stored } : fields
  }

  /** Forgets what was typed, because it is saved. */
  forget(): void {
    keepText(this.#name, '')
    this.#name = ''
  }
}
