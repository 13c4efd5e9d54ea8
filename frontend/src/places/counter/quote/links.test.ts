import { render } from 'svelte/server'
import { expect, test } from 'vitest'
import { quote as words } from '../../../lib/messages/quote'
import { learn } from '../../../lib/text'
import Links from './Links.svelte'

learn(words)

const answer = {
  answer: 'accepted',
  name: 'Ines',
  at: '2026-02-02T10:00:00Z',
  price: '',
  waits: null,
  consents: [],
}

function drawn(given: object): string {
  const quote = { answer: { ...answer, ...given }, totals: { gross: '3570.38' }, exponent: 2, links: [] }
  const props = { quote, sending: {} } as never
  return render(Links, { props })
    .body.replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
}

test('an accepted quote names what the customer said and the total of that price', () => {
  expect(drawn({ price: 'automatic' })).toContain('The customer said: automatic. Accepted total: 3,570.38')
})

test('an accepted quote of one price names its total alone', () => {
  expect(drawn({})).toContain('Accepted total: 3,570.38')
  expect(drawn({})).not.toContain('The customer said')
})

test('a declined quote has no accepted total', () => {
  expect(drawn({ answer: 'declined' })).not.toContain('Accepted total')
})
