// Records open attributes of the vehicle from the quote whose price they change.
import { type Answer, read, write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change } from '../draft.svelte'
import type { PossiblePrice } from './possiblePrices'

type Refused = Extract<Answer<unknown>, { ok: false }>

/** Returns the vehicle's attributes with those of a price; null if one of them has no name to record. */
export function attributesWith(attributes: Record<string, string>, { stated, nameable }: PossiblePrice) {
  if (!nameable) return null
  return {
    ...attributes,
    ...Object.fromEntries(stated.map(({ attribute, value }) => [attribute, value ?? ''])),
  }
}

/** Records attributes of the quote's vehicle. Undo restores the previous ones. */
export function recordAttributes(attributes: Record<string, string>, says: string, at: string): Change {
  return {
    says,
    at,
    send: async (_match, { id, vehicle }) => {
      if (!vehicle) return read('quotes/{id}', { at: { id } })
      const match = { match: `"${vehicle.version}"` }
      const answer = await write('patch', 'vehicles/{id}', { id: vehicle.id }, { attributes }, match)
      return answer.ok ? read('quotes/{id}', { at: { id } }) : ofVehicle(answer)
    },
    undo: ({ vehicle }) =>
      recordAttributes(vehicle?.attributes ?? {}, t('quote.undecided.undone', { says }), at),
  }
}

/** Returns a conflict (412) on the vehicle as 409: a 412 would be worded with who changed the quote. */
function ofVehicle({ problem }: Refused): Refused {
  return { ok: false, problem: problem.status === 412 ? { ...problem, status: 409 } : problem }
}
