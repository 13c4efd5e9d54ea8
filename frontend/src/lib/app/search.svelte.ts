import type { Answer, Problem } from '../api/client'

/** Makes a call once a person pauses while typing. */
export class Debounce {
  private timer: ReturnType<typeof setTimeout> | undefined

  /** `pause` is in milliseconds without a key. */
  constructor(private readonly pause = 150) {}

  /** Makes this call after the pause, unless another one takes its place before. */
  call(act: () => unknown): void {
    this.cancel()
    this.timer = setTimeout(act, this.pause)
  }

  cancel(): void {
    clearTimeout(this.timer)
  }
}

/** Searches while a person types, with debounce. Only the newest query may show its answer. */
export class Search<T> {
  items = $state.raw<T[]>([])
  /** The query of the shown items. */
  query = $state<string | null>(null)
  looking = $state(false)
  problem = $state.raw<Problem | null>(null)
  private turn = 0
  private readonly debounce = new Debounce()

  constructor(private look: (q: string) => Promise<Answer<{ items: T[] }>>) {}

  type(text: string): void {
    this.debounce.call(() => this.find(text))
  }

  async find(text: string): Promise<void> {
    this.debounce.cancel()
    const q = text.trim()
    const turn = ++this.turn
    this.looking = true
    const answer = await this.look(q)
    if (turn !== this.turn) return
    this.looking = false
    this.query = q
    this.items = answer.ok ? answer.data.items : []
    this.problem = answer.ok ? null : answer.problem
  }

  clear(): void {
    this.debounce.cancel()
    this.turn++
    this.looking = false
    this.query = null
    this.items = []
    this.problem = null
  }
}
