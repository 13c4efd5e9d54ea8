// The kinds of file to import, in the order in which a new workshop needs them, with their roles. The server checks
// the role; the list here only warns before a person chooses a file.
import type { Role } from '../../../lib/app/session.svelte'

export const KINDS = [
  'rules',
  'labour',
  'suppliers',
  'consumables',
  'kit',
  'kits',
  'customers',
  'vehicles',
  'packing_slip',
] as const
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
  suppliers: 'rules',
  consumables: 'stores',
  kit: 'stores',
  kits: 'counter',
  customers: 'counter',
  vehicles: 'counter',
  packing_slip: 'stores',
}

/** Returns whether this person may take out the shop's list of this kind. */
export function mayTakeOut(role: Role | undefined, kind: Kind): boolean {
  return kind !== 'kit' && kind !== 'packing_slip' && mayImport(role, kind) && role !== 'parts'
}

export function isKind(word: string): word is Kind {
  return KINDS.some((kind) => kind === word)
}

export function mayImport(role: Role | undefined, kind: Kind): boolean {
  return role !== undefined && CIRCLES[CIRCLE[kind]].includes(role)
}

/** Returns whether this person may see any file. */
export function seesFiles(role: Role | undefined): boolean {
  return KINDS.some((kind) => mayImport(role, kind))
}

/** Returns the key below `office.only` of the sentence that names who may import this kind. */
export function whoMay(kind: Kind): Circle {
  return CIRCLE[kind]
}

/** Returns whether this kind of file comes from a supplier, whose columns are remembered. */
export function fromSupplier(kind: string): boolean {
  return kind === 'kit' || kind === 'consumables'
}
