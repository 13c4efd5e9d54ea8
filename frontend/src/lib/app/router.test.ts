import { expect, test, vi } from 'vitest'

vi.stubGlobal('location', { pathname: '/', search: '' })
const { fits, splitPath } = await import('./router.svelte')

test.each([
  ['/copper-fell/counter', { slug: 'copper-fell', place: 'counter', rest: '' }],
  ['/copper-fell/counter/quotes/7', { slug: 'copper-fell', place: 'counter', rest: 'quotes/7' }],
  ['/copper-fell/bay/', { slug: 'copper-fell', place: 'bay', rest: '' }],
  ['/sign-in', { slug: 'sign-in', place: undefined, rest: '' }],
  ['/', { slug: '', place: undefined, rest: '' }],
])('%s is taken apart', (path, match) => {
  expect(splitPath(path)).toEqual(match)
})

test('an address fits the pattern of its length only', () => {
  expect(fits('', '')).toEqual({})
  expect(fits('quotes/:id', 'quotes/7')).toEqual({ id: '7' })
  expect(fits('quotes/:id', 'quotes/')).toBeNull()
  expect(fits('quotes/:id', 'quotes/7/margin')).toBeNull()
  expect(fits('lists/:id/report', 'lists/a%20b/report')).toEqual({ id: 'a b' })
})
