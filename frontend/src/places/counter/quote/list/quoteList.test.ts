import { expect, test } from 'vitest'
import { filterOf, queryOf } from './quoteList'

// Tests the filter in the address of the list of quotes, and its request.
test.each([
  ['', {}],
  ['?state=all', {}],
  ['?state=expired', { state: 'expired' }],
  ['?q=+bo+turbo+', { q: 'bo turbo' }],
  ['?customer=c&state=sent&q=turbo', { customer: 'c', state: 'sent', q: 'turbo' }],
  ['?kit=&part=p', { part: 'p' }],
])('%s asks for %o', (query, search) => {
  expect(queryOf(filterOf(query))).toEqual(search)
})
