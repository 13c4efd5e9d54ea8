import { read } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { Debounce } from '../../../../lib/app/search.svelte'

export type VinChecked = Shape<'VinCheckOut'>

const DOUBTFUL = ['malformed', 'check_digit_wrong']

/** Checks a VIN while a person types, with debounce. The result is for one text and is dropped at the next key. */
export class Vin {
  private text = $state('')
  private checked = $state.raw<{ of: string; check: VinChecked } | null>(null)
  private readonly debounce = new Debounce(350)

  /** Begins with a recorded VIN and the result of its check. */
  constructor(vin = '', check: VinChecked | null = null) {
    this.text = vin
    if (check) this.checked = { of: vin, check }
  }

  /** The objection to the VIN in the field. */
  get doubt(): VinChecked | null {
    const { checked: answer } = this
    return answer && answer.of === this.text && DOUBTFUL.includes(answer.check.status) ? answer.check : null
  }

  /** Handles a change of the field: checks it after the debounce. */
  type(vin: string): void {
    this.text = vin.trim()
    if (this.text) this.debounce.call(() => this.look())
    else this.debounce.cancel()
  }

  /** Checks the VIN at once unless it was checked. Returns whether that raised a doubt that nobody has seen. */
  async look(): Promise<boolean> {
    this.debounce.cancel()
    const of = this.text
    if (!of || this.checked?.of === of) return false
    const answer = await read('vehicles/vin', { query: { vin: of } })
    if (!answer.ok || of !== this.text) return false // without an answer it is saved as written
    this.checked = { of, check: answer.data }
    return this.doubt !== null
  }
}
