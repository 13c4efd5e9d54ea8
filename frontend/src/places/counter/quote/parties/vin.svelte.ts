import { read } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'

export type VinChecked = Shape<'VinCheckOut'>

const PAUSE = 350 // milliseconds without a key
const DOUBTFUL = ['malformed', 'check_digit_wrong']

/** Checks a VIN while a person types, with debounce. The result is for one text and is dropped at the next key. */
export class Vin {
  private text = $state('')
  private checked = $state.raw<{ of: string; check: VinChecked } | null>(null)
  private timer: ReturnType<typeof setTimeout> | undefined

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
    clearTimeout(this.timer)
    if (this.text) this.timer = setTimeout(() => void this.look(), PAUSE)
  }

  /** Checks the VIN at once unless it was checked. Returns whether that raised a doubt that nobody has seen. */
  async look(): Promise<boolean> {
    clearTimeout(this.timer)
    const of = this.text
    if (!of || this.checked?.of === of) return false
    const answer = await read('vehicles/vin', { query: { vin: of } })
    if (!answer.ok || of !== this.text) return false // without an answer it is saved as written
    this.checked = { of, check: answer.data }
    return this.doubt !== null
  }
}
