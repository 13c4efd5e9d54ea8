import { type Problem, read } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { formName } from '../../../../lib/app/keptFields.svelte'
import { Debounce } from '../../../../lib/app/search.svelte'

export type Kit = Shape<'KitRowOut'>

/** Returns the name under which a screen keeps the words of its search for kits. */
export const kitSearchForm = () => formName('kits')

/** Pages through the shop's kits with their fit to the vehicle. Only the newest query may show its answer. */
export class Kits {
  items = $state.raw<Kit[]>([])
  next = $state<string | null>(null)
  looking = $state(true)
  problem = $state.raw<Problem | null>(null)
  private turn = 0
  private readonly debounce = new Debounce()

  constructor(
    private look = (query: { q?: string; vehicle?: string; cursor?: string }) => read('kits', { query }),
  ) {}

  /** Searches for the text in the box, with debounce. */
  type(q: string, vehicle: string | null): void {
    this.debounce.call(() => this.find(q, vehicle))
  }

  async find(q: string, vehicle: string | null, cursor?: string): Promise<void> {
    const turn = ++this.turn
    this.looking = true
    const answer = await this.look({
      ...(q.trim() ? { q: q.trim() } : {}),
      ...(vehicle ? { vehicle } : {}),
      ...(cursor ? { cursor } : {}),
    })
    if (turn !== this.turn) return
    this.looking = false
    this.problem = answer.ok ? null : answer.problem
    if (!answer.ok) return
    this.items = cursor ? [...this.items, ...answer.data.items] : answer.data.items
    this.next = answer.next
  }
}
