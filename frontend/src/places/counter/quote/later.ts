// The parts of a quote's screen that are loaded when first opened. `fetchAhead` loads them while the person reads.
export const adding = () => import('./lines/AddPanel.svelte')
export const who = () => import('./parties/CustomerPicker.svelte')
export const car = () => import('./parties/VehiclePicker.svelte')
export const facts = () => import('./parties/VehicleForm.svelte')
export const links = () => import('./send/LinkList.svelte')
export const bought = () => import('./prices/LandedCosts.svelte')
export const how = () => import('./prices/FigureExplanation.svelte')
export const outside = () => import('./lines/OutsideWork.svelte')
export const extras = () => import('./lines/Extras.svelte')
export const earlier = () => import('./send/EarlierVersion.svelte')
export const aside = () => import('./send/DraftActions.svelte')
export const decide = () => import('./header/OpenQuestions.svelte')
export const discount = () => import('./prices/Discount.svelte')
export const undecided = () => import('./header/PossiblePrices.svelte')
export const operations = () => import('./lines/Operations.svelte')
export const newerRules = () => import('./header/NewerRules.svelte')
export const own = () => import('./prices/OverrideForm.svelte')
export const out = () => import('./send/SentPanel.svelte')

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
