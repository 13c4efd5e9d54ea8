import { read } from '../../../lib/api/client'
import type { Data } from '../../../lib/api/types'
import { Search } from '../../../lib/app/search.svelte'

export type Hit = Data<'get', 'find'>['items'][number]

const LEAST = 2

/** Searches all records of the shop for at least two characters. */
export class Finder extends Search<Hit> {
  constructor(look = (q: string) => read('find', { query: { q } })) {
    super(look)
  }

  /** Handles the text in the box; `now` skips the debounce. */
  override type(text: string, now = false): void {
    if (text.trim().length < LEAST) this.clear()
    else if (now) void this.find(text)
    else super.type(text)
  }
}
