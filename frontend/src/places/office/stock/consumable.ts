// Holds what is typed about a consumable and its packs, as the requests have it.
import type { Shape } from '../../../lib/api/types'

export const FACTS = ['family', 'specification', 'form', 'tax_class', 'shelf_life', 'hazard'] as const
export const PACK = ['title', 'pack_size', 'sells', 'code'] as const
export const BUYING = [
  'supplier',
  'cost',
  'currency',
  'duty',
  'freight',
  'brokerage',
  'valid_until',
  'lead_days',
] as const

export type TypedFacts = Record<(typeof FACTS)[number], string>
export type TypedPack = Record<(typeof PACK)[number] | (typeof BUYING)[number], string>

const texts = <Name extends string>(names: readonly Name[], from: Partial<Record<Name, unknown>> = {}) =>
  Object.fromEntries(names.map((name) => [name, String(from[name] ?? '')])) as Record<Name, string>

/** Returns the facts of a consumable as a form begins with them; empty ones for a new consumable. */
export const factsOf = (consumable?: Shape<'ConsumableOut'>): TypedFacts => texts(FACTS, consumable)

/** Returns a pack with its price of purchase as a form begins with them; empty ones for a new pack. */
export const packOf = (pack?: Shape<'PackOut'>, offer?: Shape<'PackOfferOut'>): TypedPack => ({
  ...texts(PACK, pack ? { ...pack, code: '' } : {}),
  ...texts(BUYING, offer),
})

/** Returns whether two forms differ. */
export const differ = (before: object, after: object): boolean =>
  JSON.stringify(before) !== JSON.stringify(after)

/** Returns the consumable's name: its family and specification. */
export const nameOf = ({ family, specification }: { family: string; specification: string }): string =>
  [family, specification].filter(Boolean).join(', ')
