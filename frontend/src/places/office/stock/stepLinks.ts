// Works out which steps of a template include or overlap others, and draws these links beside the arrows of the order.

export interface Overlap {
  readonly operation: string
  readonly hours: string
}
/** What an operation includes, and what it overlaps with. */
export interface Pairs {
  readonly includes: readonly string[]
  readonly overlaps: readonly Overlap[]
}
/** Two steps, by their places in the list: `from` includes `to`, or both overlap and save `hours` together. */
export interface Link {
  readonly kind: 'includes' | 'overlaps'
  readonly from: number
  readonly to: number
  readonly hours: string
}
/** A link as SVG paths: its line, and the marks at its ends. */
export interface LinkDrawing {
  kind: Link['kind']
  line: string
  marks: string[]
}
/** The side of a box that the work leaves by: how far along it lies, where it begins aside, and its breadth. */
export interface Edge {
  along: number
  start: number
  breadth: number
}
/** What the links are drawn in. `layers` and `edges` are by the places of the steps. */
export interface Ground {
  layers: readonly number[]
  edges: ReadonlyMap<number, Edge>
  /** How far along the room behind each layer begins. */
  channels: readonly number[]
  /** Where the lanes begin aside, behind all boxes. */
  side: number
  point: (along: number, aside: number) => string
}

const [LANE, GAP] = [9, 10] // between lanes, and between them and the boxes
const [FIRST, STEP, TRACKS] = [9, 4, 4] // ways across the room behind a layer
const [MARK, HALF] = [10, 4]

/** Returns what the texts of an operation's form say: its codes, and "CODE hours" for each overlap. */
export function pairsOf(texts: { includes: string; overlaps: string }): Pairs {
  const lines = (text: string) => text.split('\n').filter(Boolean)
  return {
    includes: lines(texts.includes),
    overlaps: lines(texts.overlaps).map((line) => {
      const [operation = '', hours = ''] = line.split(/ (?=\S+$)/)
      return { operation, hours }
    }),
  }
}

/** Returns the links between steps of the list, each overlap once. */
export function linksOf(steps: readonly ({ readonly operation: string } & Pairs)[]): Link[] {
  const places = new Map(steps.map(({ operation }, at) => [operation, at]))
  const links: Link[] = []
  for (const [from, { includes, overlaps }] of steps.entries()) {
    for (const code of includes) {
      const to = places.get(code)
      if (to !== undefined) links.push({ kind: 'includes', from, to, hours: '' })
    }
    for (const { operation, hours } of overlaps) {
      const to = places.get(operation)
      if (to === undefined) continue
      const [first, last] = [Math.min(from, to), Math.max(from, to)]
      const same = (link: Link) => link.kind === 'overlaps' && link.from === first && link.to === last
      if (!links.some(same)) links.push({ kind: 'overlaps', from: first, to: last, hours })
    }
  }
  return links
}

/** Returns the lane of each link, from 0; links that pass the same layer have different ones. None within a layer. */
export function lanesOf(links: readonly Link[], layers: readonly number[]): (number | null)[] {
  const taken: [number, number, number][] = []
  return links.map(({ from, to }) => {
    const [first, last] = [layers[from] ?? 0, layers[to] ?? 0].sort((a, b) => a - b) as [number, number]
    if (first === last) return null
    const free = (lane: number) =>
      !taken.some(([at, start, end]) => at === lane && start <= last && first <= end)
    let lane = 0
    while (!free(lane)) lane++
    taken.push([lane, first, last])
    return lane
  })
}

/** Returns the breadth that the lanes take beside the boxes. */
export function lanesBreadth(lanes: readonly (number | null)[]): number {
  const count = Math.max(0, ...lanes.map((lane) => (lane ?? -1) + 1))
  return count && GAP + count * LANE
}

/** Draws each link from the one box behind its layer, along its lane, and to the other box from behind its layer. */
export function drawLinks(
  links: readonly Link[],
  lanes: readonly (number | null)[],
  ground: Ground,
): LinkDrawing[] {
  const { layers, edges, channels, side, point } = ground
  const ports = portsOf(links, edges)
  return links.map(({ kind, from, to }, at) => {
    const [source, target] = ports[at] as [Port, Port]
    const track = FIRST + (at % TRACKS) * STEP
    const [start, end] = [from, to].map((place) => (channels[layers[place] ?? 0] ?? 0) + track) as [
      number,
      number,
    ]
    const lane = lanes[at] ?? null
    const aside = side + GAP + (lane ?? 0) * LANE
    const corners = [point(source.along, source.aside), point(start, source.aside)]
    if (lane !== null) corners.push(point(start, aside), point(end, aside))
    corners.push(point(end, target.aside), point(target.along, target.aside))
    const marks =
      kind === 'includes' ? [diamond(source, point)] : [source, target].map((port) => ring(port, point))
    return { kind, line: `M${corners.join('L')}`, marks }
  })
}

interface Port {
  along: number
  aside: number
}

/** Returns where each link leaves its boxes: in the far half of the edge, since arrows leave from its middle. */
function portsOf(links: readonly Link[], edges: ReadonlyMap<number, Edge>): [Port, Port][] {
  const counts = new Map<number, number>()
  for (const place of links.flatMap(({ from, to }) => [from, to]))
    counts.set(place, (counts.get(place) ?? 0) + 1)
  const used = new Map<number, number>()
  const port = (place: number): Port => {
    const { along, start, breadth } = edges.get(place) as Edge
    const number = (used.get(place) ?? 0) + 1
    used.set(place, number)
    const part = number / ((counts.get(place) ?? 0) + 1)
    return { along, aside: start + (breadth / 2) * (1 + part) }
  }
  return links.map(({ from, to }) => [port(from), port(to)])
}

function diamond({ along, aside }: Port, point: Ground['point']): string {
  const middle = along + MARK / 2
  const corners = [
    point(along, aside),
    point(middle, aside - HALF),
    point(along + MARK, aside),
    point(middle, aside + HALF),
  ]
  return `M${corners.join('L')}z`
}

function ring({ along, aside }: Port, point: Ground['point']): string {
  const half = `A${HALF} ${HALF} 0 1 1 `
  return `M${point(along, aside)}${half}${point(along + 2 * HALF, aside)}${half}${point(along, aside)}z`
}
