// One bag on the scale: the entries, this phone's memory of the part and the scale, and the result.
import { Exact } from '../../../calc/exact'
import {
  SMALLEST_SAMPLE,
  type Weighed,
  type Weighing,
  type Workings,
  weigh,
  workings,
} from '../../../calc/weighing'
import { recall, remember } from '../../../lib/device/database'
import { after, complete, type Room } from '../../../lib/figures/typedFigure'

/** Pieces in the sample, its mass, the mass of all with the tare, and the tare; masses in grams. */
export const FIGURES = ['count', 'sample', 'all', 'tare'] as const
export type Figure = (typeof FIGURES)[number]

/** The relative standard deviation of the mass of one piece, by kind. */
export const VARIATION = {
  turned: '0.005',
  fasteners: '0.01',
  pressed: '0.02',
  moulded: '0.03',
  rubber: '0.05',
} as const
export type Kind = keyof typeof VARIATION
export const KINDS = Object.keys(VARIATION) as Kind[]

/** The scale's divisions, in grams. */
export const STEPS = ['0.01', '0.02', '0.05', '0.1', '0.2', '0.5', '1', '2', '5'] as const

/** A weighed sample, with the scale's division. */
interface Sample {
  count: string
  mass: string
  step: string
  kind: Kind
  at: string
}

/** The figure that prevents the calculation, and its fault. */
export interface Fault {
  figure: Figure
  code: 'small' | 'nothing' | 'step' | 'tare'
}

const COUNT: Room = { whole: 4, places: 0 }
const MASS: Room = { whole: 5, places: 3 }
const SCALE = 'scale'

export class OnScale {
  typed = $state<Record<Figure, string>>({ count: '', sample: '', all: '', tare: '' })
  /** The figure that the keys type into. */
  on = $state<Figure>('count')
  /** The next key replaces the figure, because it was just chosen. */
  replaces = $state(true)
  step = $state('')
  kind = $state<Kind | ''>('')
  /** The sample of an earlier bag, until a person types another. */
  kept = $state.raw<Sample | null>(null)
  /** True once a person tried to go on from a figure with a fault. */
  private isFaultShown = $state(false)

  /** `part` is the part number, empty if it has none; `expected` the pieces that should be there. */
  constructor(
    readonly shop: string,
    readonly part: string,
    readonly expected: number,
  ) {}

  /** Restores this phone's scale and the part's sample, unless a person is already typing. */
  async open(): Promise<void> {
    const scale = await recall<{ step: string }>(SCALE).catch(() => undefined)
    const sample = this.part ? await recall<Sample>(this.name).catch(() => undefined) : undefined
    this.step ||= scale?.step ?? ''
    this.kind ||= sample?.kind ?? '' // the kind belongs to the part, not to the scale
    if (!sample || this.typed.count || this.typed.sample) return
    this.kept = sample
    this.typed = { ...this.typed, count: sample.count, sample: sample.mass }
    this.choose('all')
  }

  press(key: string): void {
    const stands = this.typed[this.on]
    const room = this.on === 'count' ? COUNT : MASS
    this.set(after(this.replaces && key !== 'Backspace' ? '' : stands, key, room))
    this.replaces = false
  }

  /** Replaces the figure, also to restore it after a scanner typed into it. */
  set(text: string): void {
    this.isFaultShown = false
    if (text === this.typed[this.on]) return
    if (this.on === 'count' || this.on === 'sample') this.kept = null
    this.typed = { ...this.typed, [this.on]: text }
  }

  choose(figure: Figure): void {
    this.on = figure
    this.replaces = true
    this.isFaultShown = false
  }

  /** The number of pieces in the sample. */
  get pieces(): number {
    return Number(this.typed.count)
  }

  /** The next figure to enter; null when all are entered. */
  get missing(): 'count' | 'sample' | 'all' | 'step' | 'kind' | null {
    const figure = (['count', 'sample', 'all'] as const).find((name) => !this.typed[name])
    if (figure) return figure
    if (!this.step) return 'step'
    return this.kind ? null : 'kind'
  }

  /** The first fault. A figure still being typed shows its fault only when the person tries to go on. */
  get fault(): Fault | null {
    const fault = this.faults().next().value ?? null
    const young = fault?.figure === this.on && (fault.code === 'small' || fault.code === 'nothing')
    return young && !this.isFaultShown ? null : fault
  }

  /** Chooses `next`, or shows the fault of the present figure. */
  goOn(next: Figure): void {
    const fault = this.faults().next().value
    if (fault?.figure === this.on) this.isFaultShown = true
    else this.choose(next)
  }

  /** The input of the calculation once all figures are entered and valid, else null. */
  get weighing(): Weighing | null {
    if (this.missing || this.kind === '' || this.faults().next().value) return null
    return {
      sample_count: this.pieces,
      sample_mass: complete(this.typed.sample),
      batch_mass: complete(this.typed.all),
      tare: complete(this.typed.tare) || '0',
      scale_step: coarser(this.step, this.kept?.step),
      piece_variation: VARIATION[this.kind],
      expected: this.expected,
    }
  }

  get result(): (Weighed & Workings) | null {
    const { weighing } = this
    return weighing && { ...weigh(weighing), ...workings(weighing) }
  }

  /** Keeps the scale for the next bag, and the sample for the next bag of this part. */
  async keep(at = new Date().toISOString()): Promise<void> {
    const { step, kind } = this
    if (!step || !kind) return
    await remember(SCALE, { step })
    const { count, sample } = this.typed
    if (this.part && !this.kept)
      await remember(this.name, { count, mass: complete(sample), step, kind, at } satisfies Sample)
  }

  private *faults(): Generator<Fault> {
    const { count, sample, all, tare } = this.typed
    if (count && this.pieces < SMALLEST_SAMPLE) yield { figure: 'count', code: 'small' }
    if (sample && grams(sample).numerator === 0n) yield { figure: 'sample', code: 'nothing' }
    for (const figure of this.kept ? (['all', 'tare'] as const) : (['sample', 'all', 'tare'] as const))
      if (this.typed[figure] && this.step && !fits(this.typed[figure], this.step))
        yield { figure, code: 'step' }
    if (all && tare && grams(all).compared(grams(tare)) < 0) yield { figure: 'all', code: 'tare' }
  }

  private get name(): string {
    return `weighed ${this.shop} ${this.part}`
  }
}

const grams = (text: string) => Exact.read(complete(text))

/** Returns whether a scale with this division can show the mass. */
function fits(mass: string, step: string): boolean {
  return grams(mass).over(Exact.read(step)).denominator === 1n
}

/** Returns the larger division: the coarser scale limits the result, whether it weighed the sample or the bag. */
function coarser(first: string, other = '0'): string {
  return Exact.read(first).compared(Exact.read(other)) < 0 ? other : first
}
