// Lays out the order of a template's steps as a picture. Lengths are pixels. In a wide room the work goes from left to
// right, a column a layer; in a narrow one from top to bottom, with as many boxes side by side as fit.
import { drawLinks, type Edge, type Link, type LinkDrawing, lanesBreadth, lanesOf } from './stepLinks'
import { layersOf, type OrderedStep, type Waits, waitsOf, withoutImplied } from './stepOrder'

export interface PicturedStep extends OrderedStep {
  readonly title: string
  /** What the box says below the title. */
  readonly notes?: readonly string[]
}
export interface Box {
  /** The place of the step in its list. */
  at: number
  x: number
  y: number
  width: number
  height: number
  /** The title, broken into lines that fit. */
  lines: string[]
  /** The notes, broken likewise. */
  notes: string[]
}
export interface Picture {
  width: number
  height: number
  boxes: Box[]
  /** The ways of the arrows, and their heads, as SVG paths. */
  ways: string[]
  heads: string[]
  links: LinkDrawing[]
}

const WIDE = 600 // the least room for columns
const [LEAST, MOST, COLUMN] = [96, 168, 136] // widths of a box
const [LETTER, LINE, PADDING, HEAD] = [6.9, 16, 8, 18] // of 12 px type, in the widest likely face
const [BETWEEN, APART, BEND] = [30, 10, 4] // layers, what stands side by side, and an arrow that passes by
const ABREAST = 2 // boxes side by side on a phone; more from 480 px
const TURNS = 4

/** One thing in a layer: a step, or an arrow from `source` that goes on to a later layer. */
interface Item {
  source: number
  bend: boolean
  befores: Item[]
  /** Its place in its layer, and its extents in the layer and along the work. */
  start: number
  breadth: number
  depth: number
  lines: string[]
  notes: string[]
}

/** Returns the picture of steps without a loop, in a room of this width; wider if a chain of columns asks for it. */
export function picture(steps: readonly PicturedStep[], whole: number, links: readonly Link[] = []): Picture {
  const across = whole >= WIDE
  const waits = withoutImplied(waitsOf(steps))
  const abreast = across ? undefined : Math.max(ABREAST, Math.floor(whole / (MOST - 8)))
  const layered = layersOf(waits, abreast)
  const lanes = lanesOf(links, layered)
  const room = whole - (across ? 0 : lanesBreadth(lanes))
  const layers = inLayers(waits, layered)
  for (const layer of layers) measure(layer, steps, across ? null : room)
  straighten(layers)
  const space = across ? Math.max(0, ...layers.map(breadthOf)) : room
  for (const layer of layers) place(layer, space)
  const { edges, channels, side, ...order } = drawn(layers, across, room)
  const point = pointed(across)
  const beside = lanesBreadth(lanes)
  const last = links.some(
    ({ from, to }) => Math.max(layered[from] ?? 0, layered[to] ?? 0) === layers.length - 1,
  )
  return {
    ...order,
    width: order.width + (across ? (last ? BETWEEN : 0) : beside),
    height: order.height + (across ? beside : last ? BETWEEN : 0),
    links: drawLinks(links, lanes, { layers: layered, edges, channels, side, point }),
  }
}

/** Returns a function that writes a point of the picture, whichever way the work goes. */
const pointed = (across: boolean) => (along: number, aside: number) =>
  across ? `${along} ${aside}` : `${aside} ${along}`

/** Breaks a text into lines of at most `most` letters; a longer word is cut. */
export function broken(text: string, most: number): string[] {
  const lines: string[] = []
  const pieces = text.split(/\s+/).flatMap((word) => word.match(new RegExp(`.{1,${most}}`, 'gu')) ?? [])
  for (const piece of pieces) {
    const line = lines.at(-1)
    if (line !== undefined && line.length + 1 + piece.length <= most)
      lines[lines.length - 1] = `${line} ${piece}`
    else lines.push(piece)
  }
  return lines
}

/** Returns the layers with their steps in the order of the list, and the arrows that pass them after these. */
function inLayers(waits: Waits, layers: readonly number[]): Item[][] {
  const count = Math.max(-1, ...layers) + 1
  const items = Array.from({ length: count }, (): Item[] => [])
  const box = waits.map((_, at) => itemOf(at, false))
  for (const [at, item] of box.entries()) items[layers[at] ?? 0]?.push(item)
  const bends = new Map<string, Item>()
  /** Returns what an arrow from `source` comes from in a layer: the step, or its bend there. */
  const passing = (source: number, layer: number): Item => {
    if (layer === layers[source]) return box[source] as Item
    const key = `${source} ${layer}`
    let bend = bends.get(key)
    if (!bend) {
      bend = itemOf(source, true)
      bends.set(key, bend)
      items[layer]?.push(bend)
      bend.befores.push(passing(source, layer - 1))
    }
    return bend
  }
  for (const [at, befores] of waits.entries())
    for (const before of befores) box[at]?.befores.push(passing(before, (layers[at] ?? 0) - 1))
  return items
}

const itemOf = (source: number, bend: boolean): Item => ({
  source,
  bend,
  befores: [],
  start: 0,
  breadth: BEND,
  depth: 0,
  lines: [],
  notes: [],
})

/** Gives the boxes of a layer their extents; in a `room` they share what the arrows leave. */
function measure(layer: readonly Item[], steps: readonly PicturedStep[], room: number | null): void {
  const boxes = layer.filter(({ bend }) => !bend)
  const free = (room ?? 0) - (layer.length - boxes.length) * BEND - (layer.length - 1) * APART
  const width = room === null ? COLUMN : Math.max(LEAST, Math.min(MOST, Math.floor(free / boxes.length)))
  for (const box of boxes) {
    const most = Math.floor((width - 2 * PADDING) / LETTER)
    const { title = '', notes = [] } = steps[box.source] ?? {}
    box.lines = broken(title, most)
    box.notes = notes.flatMap((note) => broken(note, most))
    const height = HEAD + (box.lines.length + box.notes.length) * LINE + 2 * PADDING
    box.breadth = room === null ? height : width
    box.depth = room === null ? width : height
  }
}

/** Sorts each layer by the middle of its neighbours, back and forth, so that fewer arrows cross (barycentre method). */
function straighten(layers: readonly Item[][]): void {
  const afters = new Map<Item, Item[]>()
  for (const item of layers.flat())
    for (const before of item.befores) afters.set(before, [...(afters.get(before) ?? []), item])
  const places = new Map<Item, number>()
  const note = (layer: readonly Item[]) => {
    for (const [at, item] of layer.entries()) places.set(item, (at + 0.5) / layer.length)
  }
  const sort = (layer: Item[], neighbours: (item: Item) => readonly Item[]) => {
    const middles = new Map(
      layer.map((item) => [item, meanPlace(neighbours(item), places) ?? places.get(item) ?? 0]),
    )
    layer.sort((a, b) => (middles.get(a) ?? 0) - (middles.get(b) ?? 0))
    note(layer)
  }
  for (const layer of layers) note(layer)
  for (let turn = 0; turn < TURNS; turn++) {
    for (const layer of layers.slice(1)) sort(layer, (item) => item.befores)
    for (const layer of layers.slice(0, -1).reverse()) sort(layer, (item) => afters.get(item) ?? [])
  }
  for (const layer of layers.slice(1)) sort(layer, (item) => item.befores)
}

function meanPlace(items: readonly Item[], places: ReadonlyMap<Item, number>): number | null {
  if (!items.length) return null
  return items.reduce((sum, item) => sum + (places.get(item) ?? 0), 0) / items.length
}

const centre = ({ start, breadth }: Item) => start + breadth / 2

/** The breadth of a layer with its gaps. */
const breadthOf = (layer: readonly Item[]) =>
  layer.reduce((sum, { breadth }) => sum + breadth + APART, -APART)

/** Puts each item of a layer as near as can be to the middle of what it waits for, and inside the space. */
function place(layer: readonly Item[], space: number): void {
  const total = breadthOf(layer)
  let middle = Math.max(0, (space - total) / 2) // where an item begins that waits for nothing
  let free = 0
  for (const item of layer) {
    const { befores, breadth } = item
    const sum = befores.reduce((total, before) => total + centre(before), 0)
    item.start = Math.max(free, befores.length ? sum / befores.length - breadth / 2 : middle)
    free = item.start + breadth + APART
    middle += breadth + APART
  }
  let end = Math.max(space, total)
  for (const item of [...layer].reverse()) {
    item.start = Math.min(item.start, end - item.breadth)
    end = item.start - APART
  }
}

function drawn(layers: readonly Item[][], across: boolean, room: number) {
  const point = pointed(across)
  const edges = new Map<number, Edge>()
  const channels: number[] = []
  const boxes: Box[] = []
  const ways: string[] = []
  const heads: string[] = []
  const ends = new Map<Item, number>()
  let along = 0
  let breadth = 0
  for (const layer of layers) {
    const depth = Math.max(...layer.map((item) => item.depth))
    for (const item of layer) {
      const aside = centre(item)
      for (const before of item.befores) {
        const from = ends.get(before) ?? 0
        const half = along - BETWEEN / 2
        const curve = [
          point(half, centre(before)),
          point(half, aside),
          point(along - (item.bend ? 0 : HEADED), aside),
        ]
        ways.push(
          `M${point(from, centre(before))}L${point(along - BETWEEN, centre(before))}C${curve.join(' ')}`,
        )
      }
      if (item.bend) ways.push(`M${point(along, aside)}L${point(along + depth, aside)}`)
      else {
        boxes.push(boxed(item, along, across))
        edges.set(item.source, { along: along + item.depth, start: item.start, breadth: item.breadth })
        if (item.befores.length) heads.push(arrowhead(along, aside, point))
      }
      ends.set(item, along + (item.bend ? depth : item.depth))
      breadth = Math.max(breadth, item.start + item.breadth)
    }
    channels.push(along + depth)
    along += depth + BETWEEN
  }
  const length = Math.max(0, along - BETWEEN)
  boxes.sort((a, b) => a.at - b.at)
  return {
    width: across ? length : Math.max(room, breadth),
    height: across ? breadth : length,
    boxes,
    ways,
    heads,
    edges,
    channels,
    side: across ? breadth : Math.max(room, breadth),
  }
}

const HEADED = 6 // the length of an arrow's head

function arrowhead(along: number, aside: number, point: (along: number, aside: number) => string): string {
  const back = along - HEADED - 1
  return `M${point(back, aside - 4)}L${point(back, aside + 4)}L${point(along, aside)}z`
}

function boxed(item: Item, along: number, across: boolean): Box {
  const { source, start, breadth, depth, lines, notes } = item
  const text = { at: source, lines, notes }
  return across
    ? { ...text, x: along, y: start, width: depth, height: breadth }
    : { ...text, x: start, y: along, width: breadth, height: depth }
}
