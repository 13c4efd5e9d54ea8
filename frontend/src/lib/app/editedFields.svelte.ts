import { keepText, keptText } from './typedText'

/**
 * Holds the fields of a form. They begin as a row is, or as a person left them in this tab over the same version of it,
 * and what is typed is kept until it is saved.
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
