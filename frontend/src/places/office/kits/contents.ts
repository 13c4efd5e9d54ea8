// Groups a kit's contents as they are packed: cartons, bags, parts.
import type { Shape } from '../../../lib/api/types'

export type KitLine = Shape<'KitLineOut'>

export interface Bag {
  key: string
  /** "" for parts that lie loose in their carton. */
  label: string
  parts: KitLine[]
}

export interface Carton {
  key: string
  /** "" for parts outside cartons. */
  label: string
  bags: Bag[]
  parts: number
}

/** Returns cartons and bags in reading order. A bag outside cartons and a part outside bags get a nameless one. */
export function packed(lines: readonly KitLine[], piece = ''): Carton[] {
  const cartons: Carton[] = []
  let bag: Bag | null = null
  const carton = (label: string) => {
    const opened = { key: `carton ${cartons.length}`, label, bags: [], parts: 0 }
    cartons.push(opened)
    return opened
  }
  let open: Carton | null = null
  for (const line of lines) {
    if (line.depth === 0 && line.kind !== 'carton') {
      if (open?.label) open = null
      if (line.kind === 'part') bag = null
    }
    if (line.kind === 'carton') {
      open = carton(line.label)
      bag = null
      continue
    }
    open ??= carton('')
    if (line.kind === 'bag') {
      bag = { key: `bag ${open.bags.length}`, label: line.label, parts: [] }
      open.bags.push(bag)
    } else if (fits(line, piece)) {
      if (!bag || (bag.label && line.depth <= depthOf(open))) bag = loose(open)
      bag.parts.push(line)
      open.parts++
    }
  }
  return cartons
    .map((filled) => ({ ...filled, bags: filled.bags.filter((candidate) => candidate.parts.length) }))
    .filter((filled) => filled.bags.length)
}

/** Returns the depth at which a part lies loose in this carton. */
function depthOf(carton: Carton): number {
  return carton.label ? 1 : 0
}

function loose(carton: Carton): Bag {
  const bag = { key: `loose ${carton.bags.length}`, label: '', parts: [] }
  carton.bags.push(bag)
  return bag
}

function fits(line: KitLine, text: string): boolean {
  const piece = text.trim().toLowerCase()
  return !piece || `${line.number} ${line.title}`.toLowerCase().includes(piece)
}
