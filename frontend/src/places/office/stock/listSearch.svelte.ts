import { SearchText } from '../../../lib/api/searchText.svelte'

/** The most rows that one answer holds. */
export const MOST = 200

/** Holds the text that a list is searched for, and whether its archived rows are listed. */
export class ListSearch extends SearchText {
  archived = $state(false)

  get query(): { limit: string; q?: string; archived: string } {
    const archived = this.archived ? 'yes' : 'no'
    return { limit: String(MOST), ...(this.asked ? { q: this.asked } : {}), archived }
  }
}
