// Holds what is typed about an operation, as the request has it.
import type { Shape } from '../../../lib/api/types'

export const FLAGS = ['exposed', 'no_return', 'mobile_again', 'hold_point', 'wheels_off'] as const
export const AREAS = ['cautions', 'torques', 'others'] as const
export const PAIRS = ['includes', 'overlaps'] as const

type Flags = Record<(typeof FLAGS)[number], boolean>
type Texts = Record<'title' | 'skill' | 'hours' | 'wait_after', string> &
  Record<(typeof AREAS)[number] | (typeof PAIRS)[number], string>
export type TypedOperation = Flags & Texts & { sharing: 'once' | 'each' }

const EMPTY: TypedOperation = {
  title: '',
  skill: '',
  hours: '',
  sharing: 'once',
  exposed: false,
  no_return: false,
  mobile_again: false,
  hold_point: false,
  wheels_off: false,
  wait_after: '',
  includes: '',
  overlaps: '',
  cautions: '',
  torques: '',
  others: '',
}

/** Returns the fields of an operation as a form begins with them; empty ones for a new operation. */
export function typedOf(operation?: Shape<'OperationOut'>): TypedOperation {
  if (!operation) return { ...EMPTY }
  const names = Object.keys(EMPTY) as (keyof TypedOperation)[]
  return Object.fromEntries(names.map((name) => [name, operation[name]])) as unknown as TypedOperation
}

/** Returns whether what is typed differs from the operation. */
export function differs(typed: TypedOperation, operation: Shape<'OperationOut'>): boolean {
  return JSON.stringify(typed) !== JSON.stringify(typedOf(operation))
}
