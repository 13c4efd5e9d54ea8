// Scrolls to the places of a quote's screen where something can be settled, opens and focuses them.
import type { Quote } from './draft.svelte'

export type Place = Quote['to_settle'][number]['place']

/** The element ids of each place, in order of preference. The last one shows the reasons if the others are absent. */
const IDS: Record<Place, readonly string[]> = {
  customer: ['parties'],
  vehicle: ['parties'],
  vehicle_facts: ['notices', 'parties'],
  open_questions: ['undecided', 'notices', 'kits'],
  kits: ['kits'],
  choices: ['choices', 'kits'],
  other_lines: ['other-lines', 'kits'],
  fluids: ['needs', 'fluids'],
  discount: ['discount', 'kits'],
  ready: ['ready'],
  notices: ['notices', 'kits'],
}

export function toPlace(place: Place): void {
  toElement(...IDS[place])
}

export function toElement(...ids: readonly string[]): void {
  const target = ids.map((id) => document.getElementById(id)).find(Boolean)
  const fold = target instanceof HTMLDetailsElement ? target : null
  if (fold) fold.open = true
  target?.scrollIntoView({ block: 'start' })
  const heading = fold?.querySelector('summary') ?? target
  heading?.focus({ preventScroll: true })
}
