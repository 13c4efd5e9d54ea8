import type { Quote } from '../draft.svelte'

type Fields = Pick<Quote, 'notices' | 'stops' | 'to_settle'>

/**
 * Returns the notices that a quote lists by themselves, each sentence once. A notice of a draft that is settled
 * elsewhere, such as a capacity that is not recorded, is only in the list of things to settle.
 */
export function noticesHere({ notices, stops, to_settle }: Fields): Quote['notices'] {
  const elsewhere = new Set(stops)
  for (const { place, words } of to_settle) if (place !== 'notices') elsewhere.add(words)
  const words = new Map(notices.map((notice) => [notice.words, notice]))
  return [...words.values()].filter((notice) => !elsewhere.has(notice.words))
}
