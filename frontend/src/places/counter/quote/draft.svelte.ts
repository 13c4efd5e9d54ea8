import type { Answer, Problem } from '../../../lib/api/client'
import { Resource } from '../../../lib/api/resource.svelte'
import type { Shape } from '../../../lib/api/types'
import { session } from '../../../lib/app/session.svelte'
import { moment } from '../../../lib/text/dates'
import { t } from '../../../lib/text/text'

export type Quote = Shape<'QuoteOut'>

/** One wish about a draft: what it does, in words; how it is sent; and the wish that takes it back. */
export interface Change {
  says: string
  send: (match: string | null, now: Quote) => Promise<Answer<Quote>>
  back?: (before: Quote, after: Quote) => Change | null
  /** Where the person pressed: a refusal is shown there. */
  at?: string
}

export interface Refused {
  problem: Problem
  at: string
  change: Change
}

/** The last change: the figures as they were before it, and its cause. */
export interface Moved {
  gross: string | null
  hours: string | null
  ready: string | null
  says: string
}

const WEIGHT: Record<string, number> = { draft: 0, sent: 1, expired: 2 }

/**
 * Is `a` older than `b`, an answer about the same quote? Revisions and versions only grow; an answered revision stays so, and
 * one that was accepted counts whatever draft was begun after it.
 */
export function isOlder(a: Quote, b: Quote): boolean {
  if ((a.state === 'accepted') !== (b.state === 'accepted')) return b.state === 'accepted'
  if (a.revision !== b.revision) return a.revision < b.revision
  if (a.version !== b.version) return a.version < b.version
  return (WEIGHT[a.state] ?? 3) < (WEIGHT[b.state] ?? 3)
}

function isSame(a: Quote, b: Quote): boolean {
  return a.revision === b.revision && a.version === b.version
}

/** A quote on the screen: edits go out one after the other, each answer is the whole quote, the newest one stays. */
export class Draft extends Resource<Quote> {
  /** Edits on their way; while there are any, the shown figures are old. */
  pending = $state(0)
  /** Counts what may have moved figures that this quote does not hold, such as the margin. */
  turned = $state(0)
  moved = $state.raw<Moved | null>(null)
  refusal = $state.raw<Refused | null>(null)
  backs = $state.raw<readonly Change[]>([])
  /** The draft that was on the screen as the customer accepted an earlier version. */
  overtaken = $state.raw<{ revision: number; draft: number } | null>(null)

  /** The key of the figure that is being changed: one at a time, wherever it stands. */
  editing = $state('')

  constructor() {
    super('quotes/{id}')
  }

  /** Opens a figure to be changed and closes the one that was open; pressed again it closes. */
  edit(key: string): void {
    this.editing = this.editing === key ? '' : key
  }

  get busy(): boolean {
    return this.pending > 0
  }

  override replace(data: Quote, etag: string | null): void {
    if (this.fresh && this.data && isOlder(data, this.data)) return // what this device kept proves nothing
    if (!data.editable) this.backs = []
    if (this.fresh && this.data && !isSame(data, this.data)) {
      this.turned++
      this.moved = null // whoever made this change says so afterwards
    }
    if (this.data?.id !== data.id) this.overtaken = null
    else if (this.data.editable && data.state === 'accepted')
      this.overtaken = { revision: data.revision, draft: this.data.revision }
    super.replace(data, etag)
  }

  /** Sends an edit; answers the wish that takes it back, or null where there is none or it was refused. */
  async make(change: Change): Promise<Change | null> {
    const back = await this.sent(change)
    if (back) this.backs = [...this.backs, back]
    return back
  }

  /** Takes back the last edit, or a certain one. */
  async undo(back = this.backs.at(-1)): Promise<void> {
    if (!back || !this.backs.includes(back)) return
    this.backs = this.backs.filter((other) => other !== back)
    await this.sent(back)
    if (this.refusal?.change === back) this.backs = []
  }

  /** Reads the quote again after something it speaks of has changed, such as a fact of the vehicle. */
  async reread(says: string): Promise<void> {
    const before = this.data
    const { turned } = this
    this.pending++
    try {
      await this.refresh()
    } finally {
      this.pending--
    }
    if (this.turned === turned) this.turned++
    if (before && this.data) this.moved = movedBy(before, this.data, says)
  }

  private async sent(change: Change): Promise<Change | null> {
    let before: Quote | undefined
    const { turned } = this
    this.pending++
    this.refusal = null
    let answer: Answer<Quote>
    try {
      answer = await this.change((match) => {
        before = this.data
        return change.send(match, before as Quote)
      })
    } catch (error) {
      this.refuse(unforeseen(), change)
      throw error
    } finally {
      this.pending--
    }
    if (!answer.ok || !before) {
      if (!answer.ok) this.refuse(answer.problem, change)
      return null
    }
    if (this.turned === turned) this.turned++ // a fact of the vehicle is no new version of the quote
    this.moved = movedBy(before, answer.data, change.says)
    return change.back?.(before, answer.data) ?? null
  }

  private refuse(problem: Problem, change: Change): void {
    this.problem = null
    if (problem.status === 409) void this.refresh() // the draft itself may be gone
    const { data } = this
    const stale = problem.status === 412 && data
    const explained = stale
      ? {
          ...problem,
          title: t('quote.stale', {
            who: data.changed_by,
            at: moment(data.changed_at, session.shop?.zone),
          }),
          detail: t('quote.stale.say', { says: change.says }),
        }
      : problem
    this.refusal = { problem: explained, at: change.at ?? 'head', change }
  }
}

/** A fault of the app itself, on the way out or back. */
function unforeseen(): Problem {
  return { type: 'unforeseen', title: t('problem.app'), status: 0, detail: t('problem.app.say') }
}

function movedBy(before: Quote, after: Quote, says: string): Moved | null {
  const gross = before.totals.gross === after.totals.gross ? null : before.totals.gross
  const hours = before.labour.hours === after.labour.hours ? null : before.labour.hours
  const was = before.promise?.ready.words ?? null
  const ready = was === after.promise?.ready.words ? null : was
  return gross || hours || ready ? { gross, hours, ready, says } : null
}
