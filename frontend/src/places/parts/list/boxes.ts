// The bags and cartons of a pull list, each of which can be counted as a whole.
import { bagName, cartonName } from '../../../lib/text/boxNames'
import { t } from '../../../lib/text/text'
import type { Groups, Placed } from './groups'

export interface Box<R> {
  key: string
  kind: 'bag' | 'carton'
  /** Its name within its kit. */
  name: string
  /** Its name where its kit is not in sight. */
  fullName: string
  rows: readonly R[]
  bags: number
}

/** Returns the name with its kit: "Carton 1, FV-BB356"; without a kit the name alone. */
export function ofKit(name: string, kit: string): string {
  return kit ? t('pull.box.where', { what: name, of: kit }) : name
}

/** The name of a kit in headings, "A. Front big-brake kit", and with its places, "kit A". */
export interface KitName {
  name: string
  short: string
}
/** Titles of kits by code. */
type Titles = ReadonlyMap<string, string>

export function titlesOf(kits: readonly { code: string; title: string }[] = []): Titles {
  return new Map(kits.map(({ code, title }) => [code, title]))
}

/** Maps the key of each kit to its name: lettered in list order, copies of the same kit numbered. */
export function kitNames<R>({ kits }: Groups<R>, titles: Titles): Map<string, KitName> {
  const names = new Map<string, KitName>()
  for (const [at, { key, kit }] of kits.entries()) {
    const copies = kits.filter((other) => other.kit === kit)
    const n = copies.findIndex((copy) => copy.key === key) + 1
    const title = titles.get(kit) ?? kit
    const numbered =
      copies.length > 1 ? t('pull.kit.copy', { kit: title, copy: n, of: copies.length }) : title
    const letter = letterOf(at)
    names.set(key, {
      name: t('pull.kit', { letter, kit: numbered }),
      short: t('pull.kit.short', { letter }),
    })
  }
  return names
}

function letterOf(at: number): string {
  return String.fromCharCode(65 + (at % 26)).repeat(Math.floor(at / 26) + 1)
}

/** Maps the id of each line to its kit; empty if the list has one kit. */
export function kitsOfLines<R extends Placed>(groups: Groups<R>, titles: Titles): Map<string, KitName> {
  const names = kitNames(groups, titles)
  if (groups.kits.length < 2) return new Map()
  return new Map(
    groups.kits.flatMap(({ key, cartons }) =>
      cartons
        .flatMap(({ bags }) => bags.flatMap(({ rows }) => rows))
        .flatMap(({ line }) => {
          const name = names.get(key)
          return name ? [[line.id, name] as const] : []
        }),
    ),
  )
}

/** Returns each bag and carton with all its lines, by key. */
export function boxesOf<R>(groups: Groups<R>, titles: Titles): Map<string, Box<R>> {
  const names = kitNames(groups, titles)
  const boxes = groups.kits.flatMap((kit) => {
    const of = groups.kits.length > 1 ? (names.get(kit.key)?.name ?? '') : ''
    return kit.cartons.flatMap((carton): Box<R>[] => {
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
        ...carton.bags.map((bag): Box<R> => {
          const name = bagName(bag)
          return { key: bag.key, kind: 'bag', name, fullName: ofKit(name, of), rows: bag.rows, bags: 0 }
        }),
      ]
    })
  })
  return new Map(boxes.map((box) => [box.key, box]))
}

/** Words its size: "8 lines, 2 bags". */
export function holds({ kind, rows, bags }: Box<unknown>): string {
  const lines = t('pull.lines', { n: rows.length })
  return kind === 'bag' ? lines : t('pull.carton.holds', { lines, bags: t('pull.bags', { n: bags }) })
}
