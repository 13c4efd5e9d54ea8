// The lines that a change removes from its job. Each tick sends the whole selection.
import { write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'

export type AgreedItem = NonNullable<Quote['change']>['items'][number]

const isSame = (a: AgreedItem, b: AgreedItem): boolean => a.source === b.source && a.item === b.item

/** Returns the selection to send after an item was ticked or unticked. */
export function chosenWith(items: readonly AgreedItem[], item: AgreedItem, taken: boolean) {
  return items
    .filter((other) => (isSame(other, item) ? taken : other.taken))
    .map(({ source, item }) => ({ source, item }))
}

/** Takes an item off the job, or leaves it on. */
export function setTakenOff(items: readonly AgreedItem[], item: AgreedItem, taken: boolean): Change {
  return {
    says: t(taken ? 'quote.did.take_off' : 'quote.did.add', { title: item.title }),
    at: 'taken',
    send: (match, now) =>
      write(
        'put',
        'quotes/{id}/taken-off',
        { id: now.id },
        { items: chosenWith(now.change?.items ?? items, item, taken) },
        { match },
      ),
    undo: () => setTakenOff(items, item, !taken),
  }
}
