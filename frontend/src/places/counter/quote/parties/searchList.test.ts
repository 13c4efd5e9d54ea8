import { createRawSnippet } from 'svelte'
import { render } from 'svelte/server'
import { expect, test } from 'vitest'
import { Search } from '../../../../lib/app/search.svelte'
import SearchList from './SearchList.svelte'

// Tests the list that the pickers of customer and vehicle share.
const children = createRawSnippet(() => ({ render: () => '<button>Add one</button>' }))

async function drawn(items: { id: string; name: string }[], q: string): Promise<string> {
  const search = new Search(async () => ({ ok: true, data: { items }, etag: null, next: null }) as never)
  await search.find(q)
  const props = {
    search: search as Search<{ id: string; name: string }>,
    label: 'Name',
    title: ({ name }: { name: string }) => name,
    about: () => 'by telephone',
    none: (text: string) => `Nobody is called ${text}.`,
    q,
    input: undefined,
    onpick() {},
    onclose() {},
    children,
  }
  const { body } = render(SearchList<{ id: string; name: string }>, { props })
  return body.replace(/<[^>]*>/g, ' ').replace(/\s+/g, ' ')
}

test('each item stands with what is about it, and the sentence for none is left out', async () => {
  const words = await drawn([{ id: 'a', name: 'Ines' }], '')
  expect(words).toContain('Ines')
  expect(words).toContain('by telephone')
  expect(words).toContain('Add one')
  expect(words).not.toContain('Nobody')
})

test('a search without an answer says so', async () => {
  expect(await drawn([], 'Ottoline')).toContain('Nobody is called Ottoline.')
})
