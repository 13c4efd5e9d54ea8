// Finds the notices that a kit is for another vehicle.
import type { Quote } from '../draft.svelte'

type Notice = Quote['notices'][number]

export const speaksAgainst = ({ code }: Notice): boolean => code === 'kit_not_for_vehicle'

/** Returns the sentences, each once, of one line or of all lines of the quote. */
export function against({ notices }: Pick<Quote, 'notices'>, line?: string): string[] {
  const objections = notices.filter((notice) => speaksAgainst(notice) && (!line || notice.about === line))
  return [...new Set(objections.map(({ words }) => words))]
}
