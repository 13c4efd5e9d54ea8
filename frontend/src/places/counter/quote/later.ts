// The parts of a quote's screen that are loaded when first opened. `fetchAhead` loads them while the person reads.
export const adding = () => import('./Adding.svelte')
export const who = () => import('./Who.svelte')
export const car = () => import('./Car.svelte')
export const facts = () => import('./CarForm.svelte')
export const links = () => import('./Links.svelte')
export const bought = () => import('./Bought.svelte')
export const how = () => import('./Asked.svelte')
export const outside = () => import('./Outside.svelte')
export const extras = () => import('./Extras.svelte')
export const earlier = () => import('./Earlier.svelte')
export const aside = () => import('./Aside.svelte')
export const decide = () => import('./Decide.svelte')
export const discount = () => import('./Discount.svelte')
export const undecided = () => import('./Undecided.svelte')
export const operations = () => import('./Operations.svelte')
export const newerRules = () => import('./NewerRules.svelte')
export const own = () => import('./Own.svelte')
export const out = () => import('./Out.svelte')

/** Loads the parts that most quotes show while the figures are fetched. */
export function fetchAlongside(): void {
  for (const load of [undecided, decide, discount, aside]) load().catch(() => {})
}

export function fetchAhead(editable: boolean): void {
  const wanted = editable
    ? [operations, extras, own, adding, who, car, facts, how]
    : [operations, extras, links, out, how]
  const fetch = () => void Promise.all(wanted.map((load) => load())).catch(() => {})
  if ('requestIdleCallback' in window) requestIdleCallback(fetch, { timeout: 2000 })
  else setTimeout(fetch, 500)
}
