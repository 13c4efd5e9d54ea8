// What the list of quotes shows: a state or all, what was typed, and at most one customer, vehicle, kit or part.
import { read } from '../../../lib/api/client'
import type { Shape } from '../../../lib/api/types'
import { t } from '../../../lib/text/text'

export const STATES = ['draft', 'sent', 'expired', 'accepted', 'declined', 'withdrawn'] as const
export const SUBJECTS = ['customer', 'vehicle', 'kit', 'part'] as const

export interface QuoteFilter {
  state: (typeof STATES)[number] | null
  q: string
  subject: { kind: (typeof SUBJECTS)[number]; id: string } | null
}

/** Reads the query of the address; a state that no list has is all of them. */
export function filterOf(query: string): QuoteFilter {
  const parameters = new URLSearchParams(query)
  const kind = SUBJECTS.find((candidate) => parameters.get(candidate))
  return {
    state: STATES.find((candidate) => candidate === parameters.get('state')) ?? null,
    q: parameters.get('q')?.trim() ?? '',
    subject: kind ? { kind, id: parameters.get(kind) ?? '' } : null,
  }
}

/** The query of the address and of the request alike. */
export function queryOf({ state, q, subject }: QuoteFilter): Record<string, string> {
  return {
    ...(subject ? { [subject.kind]: subject.id } : {}),
    ...(state ? { state } : {}),
    ...(q ? { q } : {}),
  }
}

export interface Subject {
  title: string
  vehicles: Shape<'VehicleOut'>[]
}

/** The heading of the quotes of one customer, vehicle, kit or part, and the customer's vehicles. */
export async function subjectOf({ subject }: QuoteFilter): Promise<Subject | null> {
  if (!subject) return null
  const { kind, id } = subject
  const at = { at: { id } }
  const named = (name: string, vehicles: Subject['vehicles'] = []) => ({
    title: t('quotes.of.named', { name }),
    vehicles,
  })
  if (kind === 'part') return { title: t('quotes.of.part'), vehicles: [] }
  if (kind === 'customer') {
    const answer = await read('customers/{id}', at)
    return answer.ok ? named(answer.data.name, answer.data.vehicles) : null
  }
  if (kind === 'vehicle') {
    const answer = await read('vehicles/{id}', at)
    return answer.ok ? named([answer.data.title, answer.data.plate].filter(Boolean).join(', ')) : null
  }
  const answer = await read('kits/{id}', at)
  return answer.ok ? named(answer.data.title) : null
}
