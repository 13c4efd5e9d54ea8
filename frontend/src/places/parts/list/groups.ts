// Orders a pull list for the screen: kits by carton and bag, then packs from the shelf, then reused parts.
import type { Shape } from '../../../lib/api/types'

export type Line = Shape<'PullLineOut'>
export interface Placed {
  line: Line
}

/** One bag, or the parts that lie loose in a carton. */
export interface Bag<R> {
  key: string
  label: string
  carton: string
  rows: R[]
}
export interface Carton<R> {
  key: string
  label: string
  bags: Bag<R>[]
}
export interface Kit<R> {
  key: string
  kit: string
  cartons: Carton<R>[]
}
export interface Groups<R> {
  kits: Kit<R>[]
  needs: R[]
  reused: R[]
}

/** Groups the rows as they are packed, in list order; two copies of a kit stay separate. */
export function grouped<R extends Placed>(rows: readonly R[]): Groups<R> {
  const kits: Kit<R>[] = []
  const left = new Set<string>() // cartons already left: a repeated one belongs to the next copy of the kit
  for (const row of rows) {
    const { id: key, kind, kit, carton, bag } = row.line
    if (kind === 'need' || kind === 'reused') continue
    let inKit = kits.at(-1)
    let inCarton = inKit?.cartons.at(-1)
    if (!inKit || inKit.kit !== kit || (inCarton?.label !== carton && left.has(carton))) {
      inKit = { key, kit, cartons: [] }
      kits.push(inKit)
      left.clear()
      inCarton = undefined
    }
    if (inCarton?.label !== carton) {
      inCarton = { key: `carton ${key}`, label: carton, bags: [] }
      inKit.cartons.push(inCarton)
      left.add(carton)
    }
    const inBag = inCarton.bags.at(-1)
    if (inBag?.label === bag) inBag.rows.push(row)
    else inCarton.bags.push({ key: `bag ${key}`, label: bag, carton, rows: [row] })
  }
  const of = (kind: Line['kind']) => rows.filter((row) => row.line.kind === kind)
  return { kits, needs: of('need'), reused: of('reused') }
}

/** Returns the groups with only the rows that pass `keeps`, without empty groups. */
export function narrowed<R>(groups: Groups<R>, keeps: (row: R) => boolean): Groups<R> {
  const bags = (carton: Carton<R>) =>
    carton.bags.map((bag) => ({ ...bag, rows: bag.rows.filter(keeps) })).filter((bag) => bag.rows.length > 0)
  const cartons = (kit: Kit<R>) =>
    kit.cartons
      .map((carton) => ({ ...carton, bags: bags(carton) }))
      .filter((carton) => carton.bags.length > 0)
  const kits = groups.kits
    .map((kit) => ({ ...kit, cartons: cartons(kit) }))
    .filter((kit) => kit.cartons.length > 0)
  return { kits, needs: groups.needs.filter(keeps), reused: groups.reused.filter(keeps) }
}

export type Found<R> =
  | { kind: 'line'; row: R }
  | { kind: 'boxes'; keys: [string, ...string[]] }
  | { kind: 'words'; rows: R[] }
  | { kind: 'nothing' }

/**
 * Returns the lines that a scanned or typed code means: by part number or code, else by the label of a bag or carton,
 * else by a piece of a name. Of several lines of one part, returns the first that `waits`.
 */
export function find<R extends Placed>(
  typed: string,
  rows: readonly R[],
  groups: Groups<R>,
  waits: (row: R) => boolean,
): Found<R> {
  const code = plain(typed)
  const parts = rows.filter(({ line }) => [line.number, ...line.codes].some((own) => plain(own) === code))
  const row = parts.find(waits) ?? parts[0]
  if (row) return { kind: 'line', row }
  const [place, ...others] = placesOf(typed, groups)
  if (place) return { kind: 'boxes', keys: [place, ...others] }
  const words = typed.trim().toLowerCase()
  const named = rows.filter(({ line }) => `${line.number} ${line.title}`.toLowerCase().includes(words))
  if (named.length) return { kind: 'words', rows: named }
  return { kind: 'nothing' }
}

function placesOf<R>(typed: string, { kits }: Groups<R>): string[] {
  const cartons = kits.flatMap((kit) => kit.cartons)
  const called = cartons.flatMap((carton) => [
    ...(isCalled(carton.label, typed, 'carton') ? [carton] : []),
    ...carton.bags.filter(({ label }) => isCalled(label, typed, 'bag')),
  ])
  return called.map(({ key }) => key)
}

function isCalled(label: string, typed: string, what: string): boolean {
  const code = plain(typed)
  return label !== '' && (plain(label) === code || what.toUpperCase() + plain(label) === code)
}

/** Returns the letters and digits in capitals. A GTIN loses its leading zeros. */
function plain(code: string): string {
  const bare = code.toUpperCase().replace(/[^\p{L}\p{N}]/gu, '')
  return /^\d{8,}$/.test(bare) ? bare.replace(/^0+/, '') : bare
}
