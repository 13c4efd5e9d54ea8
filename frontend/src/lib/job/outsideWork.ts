// The work of other firms for a job: what can be recorded of it, by its state and the person's role.
import { write } from '../api/client'
import type { Shape } from '../api/types'
import type { State } from '../components/stampStates'

export type OutsideWork = Shape<'JobOutsideOut'>
export type OutsideKind = Shape<'OutsideEventOut'>['kind']
interface OutsideForm {
  day: string
  expected: string
  reference: string
  note: string
}

const KINDS: Record<OutsideWork['state'], readonly OutsideKind[]> = {
  proposed: ['sent', 'back'],
  sent: ['back', 'asked', 'undone'],
  late: ['back', 'asked', 'undone'],
  back: ['sent', 'undone'],
}
const STAMPS: Record<OutsideWork['state'], State> = {
  proposed: 'not_sent',
  sent: 'sent',
  late: 'late',
  back: 'come_back',
}
const MAY_RECORD = ['advisor', 'parts', 'manager']

export const mayRecord = (role: string | undefined) => MAY_RECORD.includes(role ?? '')
export const kindsOf = (work: OutsideWork, role: string): readonly OutsideKind[] =>
  mayRecord(role) ? KINDS[work.state].filter((kind) => kind !== 'undone' || work.undo) : []
export const stampOf = (work: OutsideWork): State => STAMPS[work.state]

export function recordOutside(
  job: string,
  work: Pick<OutsideWork, 'work'> & Partial<Pick<OutsideWork, 'undo'>>,
  kind: OutsideKind,
  form: OutsideForm,
) {
  const names = kind === 'sent' || kind === 'asked'
  return write(
    'post',
    'jobs/{id}/outside',
    { id: job },
    {
      work: work.work,
      kind,
      entry: kind === 'undone' ? (work.undo ?? null) : null,
      happened_on: form.day,
      expected_on: names && form.expected ? form.expected : null,
      reference: kind === 'sent' ? form.reference.trim() : '',
      note: form.note.trim(),
    },
  )
}
