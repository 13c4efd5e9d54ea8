// The bags and cartons of a pull list, each of which can be counted as a whole.
import { bagName, cartonName } from '../../lib/boxes'
import { t } from '../../lib/text'
import type { Groups, Placed } from './groups'

export interface LotOf<R> {
  key: string
  kind: 'bag' | 'carton'
  /** As it is called within its kit. */
  name: string
  /** As it is called where its kit is not in sight. */
  fullName: string
  rows: readonly R[]
  bags: number
}

/** "Carton 1, FV-BB356"; without a kit the name alone. */
export function ofKit(name: string, kit: string): string {
  return kit ? t('pull.lot.where', { what: name, of: kit }) : name
}

/** What each kit is called, by the key of the kit; copies of the same kit are numbered. */
export function kitNames<R>({ kits }: Groups<R>): Map<string, string> {
  const names = new Map<string, string>()
  for (const { key, kit } of kits) {
    const copies = kits.filter((other) => other.kit === kit)
    const n = copies.findIndex((copy) => copy.key === key) + 1
    names.set(key, copies.length > 1 ? t('pull.kit.copy', { kit, copy: n, of: copies.length }) : kit)
  }
  return names
}

/** The kit that each line lies in, by the line's id; empty where the list has one kit only. */
export function kitsOfLines<R extends Placed>(groups: Groups<R>): Map<string, string> {
  const names = kitNames(groups)
  if (groups.kits.length < 2) return new Map()
  return new Map(
    groups.kits.flatMap(({ key, cartons }) =>
      cartons
        .flatMap(({ bags }) => bags.flatMap(({ rows }) => rows))
        .map(({ line }) => [line.id, names.get(key) ?? ''] as const),
    ),
  )
}

/** Every bag and carton with all its lines, by key. */
export function lotsOf<R>(groups: Groups<R>): Map<string, LotOf<R>> {
  const names = kitNames(groups)
  const lots = groups.kits.flatMap((kit) => {
    const of = groups.kits.length > 1 ? (names.get(kit.key) ?? '') : ''
    return kit.cartons.flatMap((carton): LotOf<R>[] => {
      const inCarton = cartonName(carton.label)
      return [
        {
          key: carton.key,
          kind: 'carton',
          name: inCarton,
          fullName: ofKit(inCarton, of),
          rows: carton.bags.flatMap((bag) => bag.rows),
          bags: carton.bags.length,
        },
        ...carton.bags.map((bag): LotOf<R> => {
          const name = bagName(bag)
          return { key: bag.key, kind: 'bag', name, fullName: ofKit(name, of), rows: bag.rows, bags: 0 }
        }),
      ]
    })
  })
  return new Map(lots.map((lot) => [lot.key, lot]))
}

/** How much lies in it: "8 lines, 2 bags". */
export function holds({ kind, rows, bags }: LotOf<unknown>): string {
  const lines = t('pull.lines', { n: rows.length })
  return kind === 'bag' ? lines : t('pull.carton.holds', { lines, bags: t('pull.bags', { n: bags }) })
}
