import { type Answer, type Problem, write } from '../../../../lib/api/client'
import type { Body, Shape } from '../../../../lib/api/types'
import type { Draft, Quote } from '../draft.svelte'

export type NewLink = Shape<'NewLinkOut'>
type Act = 'send' | 'link' | 'revoke' | 'withdraw' | 'answer' | 'go_ahead' | 'reply' | 'revise'

/** Sends a quote, manages its links and withdraws it. */
export class Sending {
  /** The link just made. Its address is never sent again. */
  link = $state.raw<NewLink | null>(null)
  problem = $state.raw<Problem | null>(null)
  busy = $state(false)
  private act = $state<Act>('send')

  constructor(private draft: Draft) {}

  /** The refusal of the last request, if it was one of these: each form shows its own. */
  refusalOf(...acts: readonly Act[]): Problem | null {
    return acts.includes(this.act) ? this.problem : null
  }

  send(quote: Quote, recipient: string, below_floor = false): Promise<boolean> {
    const { id, version } = quote
    const seen = { version, gross: quote.totals.gross } // prices may have changed although the draft has not
    return this.doing(
      'send',
      write('post', 'quotes/{id}/send', { id }, { ...seen, recipient, below_floor }),
      (sent) => {
        this.draft.replace(sent.quote, null)
        this.link = sent.link
      },
    )
  }

  another(quote: Quote, recipient: string): Promise<boolean> {
    const request = write('post', 'quotes/{id}/links', { id: quote.id }, { recipient })
    return this.doing('link', request, (link) => {
      this.link = link
      return this.draft.refresh()
    })
  }

  revoke(quote: Quote, link: string): Promise<boolean> {
    const request = write('delete', 'quotes/{id}/links/{link}', { id: quote.id, link })
    return this.doing('revoke', request, () => {
      if (this.link?.id === link) this.link = null
      return this.draft.refresh()
    })
  }

  /** Withdraws the version that the customer has: the one on the screen, or an earlier one under a draft. */
  withdraw({ id }: Quote, { revision, digest }: Pick<Quote, 'revision' | 'digest'>): Promise<boolean> {
    return this.doing(
      'withdraw',
      write('post', 'quotes/{id}/withdraw', { id }, { revision, digest: digest ?? '' }),
      (back) => {
        this.link = null
        this.draft.replace(back, `"${back.version}"`)
      },
    )
  }

  /** Records what the customer answered by phone or at the counter. */
  record({ id }: Quote, answer: Body<'post', 'quotes/{id}/spoken-answer'>): Promise<boolean> {
    const request = write('post', 'quotes/{id}/spoken-answer', { id }, answer)
    return this.doing('answer', request, (answered) => {
      this.draft.replace(answered, `"${answered.version}"`)
      this.draft.turned++ // the margin is now that of the accepted price
    })
  }

  /** Goes ahead with a change within what may be done without asking the customer. */
  goAhead({ id, revision, digest }: Quote): Promise<boolean> {
    const seen = { revision, digest: digest ?? '' }
    const request = write('post', 'quotes/{id}/without-asking', { id }, seen)
    return this.doing('go_ahead', request, (answered) =>
      this.draft.replace(answered, `"${answered.version}"`),
    )
  }

  /** Replies to a customer's question; the reply stands on the page of the link. */
  reply({ id }: Quote, question: string, reply: string): Promise<boolean> {
    return this.doing(
      'reply',
      write('post', 'quotes/{id}/questions/{question}/reply', { id, question }, { reply }),
      (answered) => this.draft.refresh().then(() => void answered),
    )
  }

  /** Reads the quote again, after something about its job has changed. */
  refresh(): Promise<void> {
    return this.draft.refresh()
  }

  revise(quote: Quote): Promise<boolean> {
    return this.doing('revise', write('post', 'quotes/{id}/revise', { id: quote.id }, {}), (next) => {
      this.link = null
      this.draft.replace(next, `"${next.version}"`)
    })
  }

  private async doing<T>(
    act: Act,
    promise: Promise<Answer<T>>,
    then: (data: T) => void | Promise<void>,
  ): Promise<boolean> {
    this.busy = true
    const answer = await promise
    this.act = act
    this.problem = answer.ok ? null : answer.problem
    if (answer.ok) await then(answer.data)
    else if (answer.problem.status === 409) await this.draft.refresh()
    this.busy = false
    return answer.ok
  }
}
