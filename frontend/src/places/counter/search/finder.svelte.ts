import { type Problem, read } from '../../../lib/api/client'
import type { Data } from '../../../lib/api/types'

export type Hit = Data<'get', 'find'>['items'][number]

const PAUSE = 150
const LEAST = 2

/** Searches while a person types, with debounce. Only the newest query may show its answer. */
export class Finder {
  /** The query of the shown hits. */
  query = $state('')
  hits = $state.raw<Hit[]>([])
  looking = $state(false)
  problem = $state.raw<Problem | null>(null)
  private turn = 0
  private timer: ReturnType<typeof setTimeout> | undefined

  constructor(private look = (q: string) => read('find', { query: { q } })) {}

  /** Handles the text in the box; `now` skips the debounce. */
  type(text: string, now = false): void {
    clearTimeout(this.timer)
    const q = text.trim()
    if (q.length < LEAST) this.clear()
    else if (now) void this.find(q)
    else this.timer = setTimeout(() => void this.find(q), PAUSE)
  }

  async find(q: string): Promise<void> {
    const turn = ++this.turn
    this.looking = true
    const answer = await this.look(q)
    if (turn !== this.turn) return
    this.looking = false
    this.query = q
    this.hits = answer.ok ? answer.data.items : []
    this.problem = answer.ok ? null : answer.problem
  }

  private clear(): void {
    this.turn++
    this.looking = false
    this.query = ''
    this.hits = []
    this.problem = null
  }
}
