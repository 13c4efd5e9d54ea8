import { type Answer, type Problem, write } from '../../../lib/api/client'
import { Resource } from '../../../lib/api/resource.svelte'
import type { Shape } from '../../../lib/api/types'
import { session } from '../../../lib/app/session.svelte'
import { moment } from '../../../lib/text/dates'
import { t } from '../../../lib/text/text'

export type Quote = Shape<'QuoteOut'>

/**
 * A change to a draft (command pattern): its words and the request that makes it. The server undoes changes of the
 * draft; `undo` is for a change of a related record, such as the vehicle.
 */
export interface Change {
  says: string
  send: (match: string | null, now: Quote) => Promise<Answer<Quote>>
  undo?: (before: Quote) => Change
  /** The place of the pressed button, where a refusal is shown. */
  at?: string
  /** What the person typed or chose, for a comparison with the draft of somebody who was faster. */
  value?: string
}

export interface Refused {
  problem: Problem
  at: string
  change: Change
  /** The draft that the person saw, where somebody else has changed it in the meantime. */
  seen?: Quote
}

/** The words of the last change, and the figures before it. */
interface Moved {
  gross: string | null
  hours: string | null
  ready: string | null
  says: string
}

const WEIGHT: Record<string, number> = { draft: 0, sent: 1, expired: 2 }

/**
 * Returns whether `a` is an older answer about the same quote than `b`. Revisions and versions only grow; an answered
 * revision stays answered, and an accepted one wins over any draft begun after it.
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

/**
 * The quote on the screen. Changes are sent one after the other (queue); each answer is the whole quote, and the
 * newest one is shown.
 */
export class Draft extends Resource<Quote> {
  /** The number of changes under way. Above 0 the shown figures are old. */
  pending = $state(0)
  /** Grows when figures outside this quote, such as the margin, may have changed. */
  turned = $state(0)
  moved = $state.raw<Moved | null>(null)
  refusal = $state.raw<Refused | null>(null)
  /** The draft on the screen when the customer accepted an earlier version. */
  overtaken = $state.raw<{ revision: number; draft: number } | null>(null)

  /** The key of the one figure that is being overridden. */
  editing = $state('')

  constructor() {
    super('quotes/{id}')
  }

  /** Opens the form of a figure and closes the previous one; closes it if it was open. */
  edit(key: string): void {
    this.editing = this.editing === key ? '' : key
  }

  get busy(): boolean {
    return this.pending > 0
  }

  protected override keep(data: Quote, etag: string | null): void {
    if (this.fresh && this.data && isOlder(data, this.data)) return // a copy on this device is never newer
    if (this.fresh && this.data && !isSame(data, this.data)) {
      this.turned++
      this.moved = null // the change that caused this answer sets it again
    }
    if (this.data?.id !== data.id) this.overtaken = null
    else if (this.data.editable && data.state === 'accepted')
      this.overtaken = { revision: data.revision, draft: this.data.revision }
    super.keep(data, etag)
  }

  /** Sends a change. Returns what undoes it as long as it is the newest one; null if the change was refused. */
  async make(change: Change): Promise<(() => void) | null> {
    const sent = await this.sent(change)
    if (!sent) return null
    const { undo } = change
    return undo ? () => void this.sent(undo(sent.before)) : () => void this.undo(sent.after.version)
  }

  /** Undoes the newest change of the draft: of any person, also before a reload. Refused once it is not `version`. */
  async undo(version = this.data?.version): Promise<void> {
    await this.step('undo', version)
  }

  /** Redoes the change that was undone last. */
  async redo(): Promise<void> {
    await this.step('redo', this.data?.version)
  }

  private async step(button: 'undo' | 'redo', version = 0): Promise<void> {
    const words = this.data?.[button]?.words
    if (!words || this.busy) return
    await this.sent({
      says: t(`quote.did.${button}`, { words }),
      send: (_match, now) => write('post', `quotes/{id}/${button}`, { id: now.id }, { version }),
    })
  }

  /** Reads the quote again after a related record, such as the vehicle, has changed. */
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

  private async sent(change: Change): Promise<{ before: Quote; after: Quote } | null> {
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
      if (!answer.ok) this.refuse(answer.problem, change, before)
      return null
    }
    if (this.turned === turned) this.turned++ // a change to the vehicle does not raise the version of the quote
    this.moved = movedBy(before, answer.data, change.says)
    return { before, after: answer.data }
  }

  private refuse(problem: Problem, change: Change, before?: Quote): void {
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
          detail: t('quote.stale.detail', { says: change.says }),
        }
      : problem
    const both = stale && before && !isSame(before, data) ? { seen: before } : {}
    this.refusal = { problem: explained, at: change.at ?? 'head', change, ...both }
  }
}

/** Returns the problem of a fault in the app itself. */
function unforeseen(): Problem {
  return { type: 'unforeseen', title: t('problem.app'), status: 0, detail: t('problem.app.detail') }
}

function movedBy(before: Quote, after: Quote, says: string): Moved | null {
  const gross = before.totals.gross === after.totals.gross ? null : before.totals.gross
  const hours = before.labour.hours === after.labour.hours ? null : before.labour.hours
  const was = before.promise?.ready.words ?? null
  const ready = was === after.promise?.ready.words ? null : was
  return gross || hours || ready ? { gross, hours, ready, says } : null
}
