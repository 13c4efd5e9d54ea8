import type { Body, Shape } from '../../../../lib/api/types'
import type { Quote } from '../draft.svelte'

/** Returns the name under which the form of a spoken answer keeps what is typed. */
export const spokenName = (quote: string) => `${quote} spoken`

/** Returns the key of the sentence that says who answered, or went ahead without an answer. */
export function answerKey({ answer, way }: Pick<NonNullable<Quote['answer']>, 'answer' | 'way'>) {
  if (answer === 'declined') return 'quote.answer.declined'
  return way === 'ceiling' ? 'quote.answer.ceiling' : 'quote.answer.accepted'
}

export type Answered = Body<'post', 'quotes/{id}/spoken-answer'>

export interface Entered {
  answer: Answered['answer']
  way: Answered['way']
  phone: string
  name: string
  /** Local time as its field gives it; empty means now. */
  when: string
  price: string
  reason: string
  read: boolean
  consents: Record<string, boolean>
}

/** Returns the request, with the version and the dates that were read out. */
export function answerBody(form: Shape<'SpokenFormOut'>, entered: Entered): Answered {
  const price = form.prices.find(({ value }) => value === entered.price) ?? form.prices[0]
  return {
    revision: form.revision,
    digest: form.digest,
    answer: entered.answer,
    way: entered.way,
    phone: entered.way === 'phone' ? entered.phone.trim() : '',
    name: entered.name.trim(),
    said_at: entered.when ? new Date(entered.when).toISOString() : null,
    price: form.prices.length > 1 ? entered.price : '',
    ready: price?.ready ?? '',
    ready_later: price?.ready_later ?? '',
    consents: form.consents.map(({ code }) => code).filter((code) => entered.consents[code]),
    read_out: entered.read,
    reason: entered.answer === 'declined' ? entered.reason.trim() : '',
  }
}
