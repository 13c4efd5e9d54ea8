import type { Problem } from '../../../lib/api/client'
import type { Shape } from '../../../lib/api/types'
import { recall, remember } from '../../../lib/device/database'
import { complete, after as keyed } from '../../../lib/figures/typedFigure'
import { type BayMix, bayMix, type Measured, type NoMix } from './mixWords'

export type Circuit = Shape<'CircuitOut'>
export type Mix = BayMix
export type Scale = Circuit['scales'][number]
/** The entries: litres drained, and a reading on each scale. */
export type Figure = 'drained' | Scale

const PLACES: Record<Figure, number> = { drained: 3, percent: 2, celsius: 2 }
const WHOLE = 3 // digits before the point: no circuit holds a thousand litres

/** Returns the text after one more key: a digit, a point or 'Backspace'. A key that does not fit changes nothing. */
export const after = (text: string, key: string, figure: Figure) =>
  keyed(text, key, { whole: WHOLE, places: PLACES[figure] })

interface Typed {
  typed: Partial<Record<Figure, string>>
  scale: Scale
}

/** The mix of one circuit, calculated on the phone. The entries stay on this device for the job. */
export class Mixing {
  typed = $state<Partial<Record<Figure, string>>>({})
  scale = $state<Scale>('percent')
  /** The next digit replaces the figure, because it was just chosen. */
  replaces = $state(true)
  circuit = $state.raw() as Circuit

  constructor(
    readonly job: string,
    circuit: Circuit,
  ) {
    this.circuit = circuit
  }

  /** The mix of the present entries; null while a figure is missing or no mix is possible. */
  get mix(): Mix | null {
    const { worked } = this
    return worked && 'mix' in worked ? worked.mix : null
  }

  /** Why no mix is possible, at the figure that caused it. */
  get problem(): Problem | null {
    const { worked } = this
    return worked && 'no' in worked ? problemOf(worked.no) : null
  }

  private get worked() {
    const { measured } = this
    // A copy kept by an older build has no words for the mix; the fresh answer is on its way.
    return measured && this.circuit.mix_words ? bayMix(this.circuit, measured) : null
  }

  /** Restores the entries of the job from this device. */
  async open(): Promise<void> {
    const draft = await recall<Typed>(this.name).catch(() => undefined)
    if (!draft) return
    this.typed = draft.typed
    this.scale = this.circuit.scales.includes(draft.scale) ? draft.scale : 'percent'
  }

  /** Types one more key into a figure. */
  press(figure: Figure, key: string): void {
    const stands = this.typed[figure] ?? ''
    const next = after(this.replaces && key !== 'Backspace' ? '' : stands, key, figure)
    this.replaces = false
    if (next === stands) return
    this.typed = { ...this.typed, [figure]: next }
    this.keep()
  }

  /** Starts a chosen figure: the next key replaces it. */
  begin(): void {
    this.replaces = true
  }

  read(scale: Scale): void {
    this.scale = scale
    this.begin()
    this.keep()
  }

  /** Returns whether a figure is not measured yet, so that the mix uses assumed ones. */
  get isAssumed(): boolean {
    return !sent(this.typed.drained) || !sent(this.typed[this.scale])
  }

  /** The entries, else the assumed figures; null while one is missing. */
  get measured(): Measured | null {
    const drained = sent(this.typed.drained) || this.circuit.drained
    if (!drained) return null
    const reading = sent(this.typed[this.scale])
    if (!reading) return { drained, reading: this.circuit.residual, scale: 'percent' }
    // The pad has no minus key: freezing points are typed as degrees below zero.
    return { drained, reading: this.scale === 'celsius' ? `-${reading}` : reading, scale: this.scale }
  }

  private keep(): void {
    const draft: Typed = { typed: { ...this.typed }, scale: this.scale }
    void remember(this.name, draft).catch(() => {})
  }

  private get name(): string {
    return `coolant ${this.job} ${this.circuit.name}`
  }
}

const sent = (text: string | undefined) => complete(text ?? '')

function problemOf({ pointer, title, words }: NoMix): Problem {
  const errors = pointer ? [{ pointer, detail: words }] : []
  return { type: '/problems/cannot-compute', status: 422, title, detail: words, errors }
}
