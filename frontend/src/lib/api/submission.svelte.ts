import type { Answer, Problem } from './client'

/** One form or button that writes: a second press while the first waits is ignored, and a refusal stays to be shown. */
export class Submission {
  busy = $state(false)
  problem = $state.raw<Problem | null>(null)

  /** Sends, and returns the answer; null for a refusal, which is then `problem`, and for a press while one waits. */
  async send<T>(write: () => Promise<Answer<T>>): Promise<(Answer<T> & { ok: true }) | null> {
    if (this.busy) return null
    this.busy = true
    const answer = await write()
    this.busy = false
    this.problem = answer.ok ? null : answer.problem
    return answer.ok ? answer : null
  }

  /** The refusal, unless its errors stand at their fields. */
  get withoutField(): Problem | null {
    return this.problem?.errors?.length ? null : this.problem
  }
}
