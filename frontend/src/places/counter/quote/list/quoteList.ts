// The filter of the list of quotes: a state, some words, and at most one customer, vehicle, kit or part.
import { read } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { t } from '../../../../lib/text/text'

export const STATES = ['draft', 'sent', 'expired', 'accepted', 'declined', 'withdrawn'] as const
const SUBJECTS = ['customer', 'vehicle', 'kit', 'part'] as const

export interface QuoteFilter {
  state: (typeof STATES)[number] | null
  q: string
  subject: { kind: (typeof SUBJECTS)[number]; id: string } | null
}

/** Reads the filter from the query of an address. An unknown state means all. */
export function filterOf(query: string): QuoteFilter {
  const parameters = new URLSearchParams(query)
  const kind = SUBJECTS.find((candidate) => parameters.get(candidate))
  return {
    state: STATES.find((candidate) => candidate === parameters.get('state')) ?? null,
    q: parameters.get('q')?.trim() ?? '',
    subject: kind ? { kind, id: parameters.get(kind) ?? '' } : null,
  }
}

/** Returns the filter as the query of the address and of the request. */
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

/** Returns the heading of the quotes of one customer, vehicle, kit or part, and the customer's vehicles. */
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
