// Works out the order of a template's steps: what each waits for, a loop among them, and the layer of each.

export interface OrderedStep {
  readonly operation: string
  readonly after: readonly string[]
}

/** Places of the steps that one waits for, for each step. */
export type Waits = readonly (readonly number[])[]

/** Returns, for each step, the places of those it waits for. Codes that are no step are left out. */
export function waitsOf(steps: readonly OrderedStep[]): Waits {
  const places = new Map(steps.map(({ operation }, at) => [operation, at]))
  return steps.map(({ after }) => [
    ...new Set(after.flatMap((code) => places.get(code) ?? []).sort((a, b) => a - b)),
  ])
}

/** Returns the places of steps that wait for each other, each for the next one; none if the work has an order. */
export function loopOf(waits: Waits): number[] {
  const free = new Set(inOrder(waits))
  const stuck = waits.findIndex((_, at) => !free.has(at))
  if (stuck < 0) return []
  const way: number[] = []
  let at = stuck
  while (!way.includes(at)) {
    way.push(at)
    at = (waits[at] as readonly number[]).find((before) => !free.has(before)) as number
  }
  return way.slice(way.indexOf(at))
}

/**
 * Returns the waits without those that others imply (transitive reduction): a step that waits for B, which waits for A,
 * waits for A too.
 */
export function withoutImplied(waits: Waits): Waits {
  const behind = waits.map(() => new Set<number>())
  for (const at of inOrder(waits)) {
    for (const before of waits[at] ?? []) {
      behind[at]?.add(before)
      for (const earlier of behind[before] ?? []) behind[at]?.add(earlier)
    }
  }
  return waits.map((befores) =>
    befores.filter((before) => !befores.some((other) => behind[other]?.has(before))),
  )
}

/**
 * Returns the layer of each step, 0 for the first. A step comes after all it waits for, as early as it can; a layer
 * holds at most `most` steps (Coffman and Graham's layering, with the longest way from the start as the order).
 */
export function layersOf(waits: Waits, most = Number.POSITIVE_INFINITY): number[] {
  const longest = waits.map(() => 0)
  const order = inOrder(waits)
  const least = (layers: readonly number[], at: number) =>
    Math.max(0, ...(waits[at] ?? []).map((before) => (layers[before] ?? 0) + 1))
  for (const at of order) longest[at] = least(longest, at)
  if (most === Number.POSITIVE_INFINITY) return longest
  const layers = waits.map(() => 0)
  const counts = new Map<number, number>()
  for (const at of order.toSorted((a, b) => (longest[a] ?? 0) - (longest[b] ?? 0))) {
    let layer = least(layers, at)
    while ((counts.get(layer) ?? 0) >= most) layer++
    layers[at] = layer
    counts.set(layer, (counts.get(layer) ?? 0) + 1)
  }
  return layers
}

/** Returns the places of the steps, each after all it waits for; those behind or in a loop are left out. */
function inOrder(waits: Waits): number[] {
  const order: number[] = []
  const done = new Set<number>()
  for (let next = 0; next >= 0; ) {
    next = waits.findIndex((befores, at) => !done.has(at) && befores.every((before) => done.has(before)))
    if (next >= 0) order.push(next)
    done.add(next)
  }
  return order
}
