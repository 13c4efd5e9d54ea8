import { type Problem, read } from '../../lib/api/client'
import type { Shape } from '../../lib/api/types'
import { recall, remember } from '../../lib/db'

export type Circuit = Shape<'CircuitOut'>
export type Mix = Shape<'MixOut'>
export type Scale = Circuit['scales'][number]
/** What is typed: litres that ran out, and a reading on each scale. */
export type Figure = 'drained' | Scale

const PLACES: Record<Figure, number> = { drained: 3, percent: 2, celsius: 2 }
const WHOLE = 3 // digits before the point: no circuit holds a thousand litres
const PAUSE = 150 // milliseconds after the last key, before the server is asked

/** The figure as it stands after one more key: a digit, a point or 'Backspace'. A key that cannot be changes nothing. */
export function after(text: string, key: string, figure: Figure): string {
  if (key === 'Backspace') return text.slice(0, -1)
  if (key === ',' || key === '.') return text.includes('.') ? text : `${text || '0'}.`
  if (!/^\d$/.test(key)) return text
  const next = text === '0' ? key : text + key
  const [whole = '', places = ''] = next.split('.')
  return whole.length > WHOLE || places.length > PLACES[figure] ? text : next
}

interface Typed {
  typed: Partial<Record<Figure, string>>
  scale: Scale
  answered: Answered | null
}
interface Answered {
  asked: string
  mix: Mix
}

/** One circuit being mixed: what was typed stays on this device for the job, the mix is the server's. */
export class Mixing {
  typed = $state<Partial<Record<Figure, string>>>({})
  scale = $state<Scale>('percent')
  /** A figure was typed whose answer is not here yet: what stands there is the old mix. */
  computing = $state(false)
  problem = $state.raw<Problem | null>(null)
  /** The next digit begins the figure anew: it was just chosen. */
  anew = $state(true)

  private answered = $state.raw<Answered | null>(null)
  private turn = 0
  private waiting: ReturnType<typeof setTimeout> | undefined

  constructor(
    readonly job: string,
    readonly circuit: Circuit,
  ) {}

  /** The last answer; while `computing` it belongs to what stood there before. */
  get mix(): Mix | null {
    return this.answered?.mix ?? null
  }

  /** Takes up what this device kept of the job, and asks for its mix. */
  async open(): Promise<void> {
    const kept = await recall<Typed>(this.name).catch(() => undefined)
    if (kept) {
      this.typed = kept.typed
      this.scale = this.circuit.scales.includes(kept.scale) ? kept.scale : 'percent'
      this.answered = kept.answered
    }
    await this.ask()
  }

  /** One more key on a figure. */
  press(figure: Figure, key: string): void {
    const stands = this.typed[figure] ?? ''
    const next = after(this.anew && key !== 'Backspace' ? '' : stands, key, figure)
    this.anew = false
    if (next === stands) return
    this.typed = { ...this.typed, [figure]: next }
    this.changed(PAUSE)
  }

  /** A figure was chosen: what is typed now replaces what stands there. */
  begin(): void {
    this.anew = true
  }

  read(scale: Scale): void {
    this.scale = scale
    this.begin()
    this.changed(0)
  }

  /** Asks for the mix of what stands there now; only the answer to the newest question counts. */
  async ask(): Promise<void> {
    clearTimeout(this.waiting)
    const query = this.query
    if (!query) {
      this.computing = false
      return
    }
    const mine = ++this.turn
    const asked = JSON.stringify(query)
    this.computing = true
    const answer = await read('jobs/{id}/circuits/{name}/mix', {
      at: { id: this.job, name: this.circuit.name },
      query,
    })
    if (mine !== this.turn) return
    this.computing = false
    if (answer.ok) {
      this.answered = { asked, mix: answer.data }
      this.problem = null
      this.keep()
    } else {
      if (this.answered?.asked !== asked) this.answered = null // a mix for other figures must not stand there
      this.problem = answer.problem
    }
  }

  /** A figure is not measured yet: the mix is of what was supposed. */
  get supposed(): boolean {
    return !sent(this.typed.drained) || !sent(this.typed[this.scale])
  }

  /** What the server is asked: what was typed, else what was supposed; null while a figure is missing. */
  get query(): { drained: string; reading: string; scale: Scale } | null {
    const drained = sent(this.typed.drained) || this.circuit.drained
    if (!drained) return null
    const reading = sent(this.typed[this.scale])
    if (!reading) return { drained, reading: this.circuit.residual, scale: 'percent' }
    // The pad has no minus: degrees are typed as below zero, which they always are.
    return { drained, reading: this.scale === 'celsius' ? `-${reading}` : reading, scale: this.scale }
  }

  private changed(pause: number): void {
    this.keep()
    this.computing = true
    this.turn++ // what is on its way answers an older question
    clearTimeout(this.waiting)
    this.waiting = setTimeout(() => void this.ask(), pause)
  }

  private keep(): void {
    const kept: Typed = { typed: { ...this.typed }, scale: this.scale, answered: this.answered }
    void remember(this.name, kept).catch(() => {})
  }

  private get name(): string {
    return `coolant ${this.job} ${this.circuit.name}`
  }
}

/** "5." is five. */
function sent(text: string | undefined): string {
  return (text ?? '').replace(/\.$/, '')
}
