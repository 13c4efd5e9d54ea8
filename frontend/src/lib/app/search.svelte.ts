import type { Answer, Problem } from '../api/client'

const PAUSE = 150

/** Searches while a person types, with debounce. Only the newest query may show its answer. */
export class Search<T> {
  items = $state.raw<T[]>([])
  /** The query of the shown items. */
  query = $state<string | null>(null)
  problem = $state.raw<Problem | null>(null)
  private turn = 0
  private timer: ReturnType<typeof setTimeout> | undefined

  constructor(private look: (q: string) => Promise<Answer<{ items: T[] }>>) {}

  type(text: string): void {
    clearTimeout(this.timer)
    this.timer = setTimeout(() => void this.find(text), PAUSE)
  }

  async find(text: string): Promise<void> {
    clearTimeout(this.timer)
    const q = text.trim()
    const turn = ++this.turn
    const answer = await this.look(q)
    if (turn !== this.turn) return
    this.query = q
    this.items = answer.ok ? answer.data.items : []
    this.problem = answer.ok ? null : answer.problem
  }
}
