// The kinds of file that are taken in, in the order a new workshop needs them, and who may. The server decides who;
// here it only says so before somebody has chosen a file in vain.
import type { Role } from '../../../lib/app/session.svelte'

export const KINDS = ['rules', 'labour', 'consumables', 'kit', 'customers', 'vehicles'] as const
export type Kind = (typeof KINDS)[number]

type Circle = 'rules' | 'counter' | 'stores'

const CIRCLES: Record<Circle, readonly Role[]> = {
  rules: ['manager'],
  counter: ['advisor', 'manager'],
  stores: ['advisor', 'parts', 'manager'],
}

const CIRCLE: Record<Kind, Circle> = {
  rules: 'rules',
  labour: 'rules',
  consumables: 'stores',
  kit: 'stores',
  customers: 'counter',
  vehicles: 'counter',
}

export function isKind(word: string): word is Kind {
  return KINDS.some((kind) => kind === word)
}

export function mayTakeIn(role: Role | undefined, kind: Kind): boolean {
  return role !== undefined && CIRCLES[CIRCLE[kind]].includes(role)
}

/** May this person see any file at all? */
export function seesFiles(role: Role | undefined): boolean {
  return KINDS.some((kind) => mayTakeIn(role, kind))
}

/** Which sentence says who may: a key below `office.only`. */
export function whoMay(kind: Kind): Circle {
  return CIRCLE[kind]
}

/** Files that come from a supplier, whose columns are remembered. */
export function fromSupplier(kind: string): boolean {
  return kind === 'kit' || kind === 'consumables'
}
