// Closes a pull list in the state on the screen, and only if nothing more has come (optimistic locking).
import { type Problem, write } from '../../../lib/api/client'
import { go } from '../../../lib/app/router.svelte'
import { flush } from '../../../lib/counts/watch'
import { t } from '../../../lib/text/text'
import { listPath } from './lineNames'
import type { PullSheet } from './pullSheet.svelte'

export class Closing {
  asking = $state(false)
  going = $state(false)
  problem = $state.raw<Problem | null>(null)

  constructor(private sheet: PullSheet) {}

  /** Closes at once if every line is counted, else asks first. */
  press(left: number): void {
    this.problem = null
    if (left) this.asking = true
    else void this.close()
  }

  async close(): Promise<void> {
    if (this.going) return
    this.asking = false
    this.going = true
    this.problem = (await this.unsent()) ?? (await this.send())
    this.going = false
  }

  /** Sends this phone's counts first: they would be late after closing. */
  private async unsent(): Promise<Problem | null> {
    if (this.sheet.waiting) await flush()
    const n = this.sheet.waiting
    if (!n) return null
    return {
      type: 'waiting',
      status: 0,
      title: t('pull.close.waiting.title'),
      detail: t('pull.close.waiting', { n }),
    }
  }

  private async send(): Promise<Problem | null> {
    const { list: id } = this.sheet.whose
    const seq = this.sheet.seq
    const answer = await write('post', 'pull-lists/{id}/close', { id }, { seq })
    if (answer.ok) {
      go(listPath(id, '/report'))
      return null
    }
    if (answer.problem.status !== 409) return answer.problem
    await this.sheet.pull()
    const n = this.sheet.seq - seq
    if (!n) return answer.problem
    return { ...answer.problem, title: t('pull.close.more', { n }), detail: t('pull.close.more.detail') }
  }
}
