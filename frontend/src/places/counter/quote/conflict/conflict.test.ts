import { expect, test } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'
import { differing } from './conflict'

learn(words)

const quote = (more: object = {}) =>
  ({
    exponent: 2,
    totals: { gross: '100.00' },
    customer: null,
    vehicle: null,
    note: '',
    discount: null,
    kits: [],
    labour: { operations: [] },
    needs: [],
    outside: [],
    extras: [],
    ...more,
  }) as unknown as Quote
const kit = (line: string, price: string) => ({ line, title: `Kit ${line}`, price })

test('two drafts that are the same do not differ', () => {
  expect(differing(quote(), quote())).toEqual([])
})

test('the total comes first, then what only one of them has', () => {
  const seen = quote({ kits: [kit('a', '60.00'), kit('b', '40.00')] })
  const newest = quote({ totals: { gross: '70.00' }, kits: [kit('a', '70.00')], note: 'Rings on Monday' })
  expect(differing(seen, newest)).toEqual([
    { title: 'Total with tax', seen: '100.00', newest: '70.00' },
    { title: 'Kit a', seen: '60.00', newest: '70.00' },
    { title: 'Kit b', seen: '40.00', newest: null },
    { title: 'Note to yourselves', seen: null, newest: 'Rings on Monday' },
  ])
})

test('hours and quantities are compared too', () => {
  const line = { line: 'x', title: 'Clip', quantity: '2.0000', price: '4.00' }
  const work = { key: 'labour:A', title: 'Bumper off', hours: '2.40' }
  const seen = quote({ extras: [line], labour: { operations: [work] } })
  const newest = quote({
    extras: [{ ...line, quantity: '3.0000', price: '6.00' }],
    labour: { operations: [{ ...work, hours: '3.00' }] },
  })
  expect(differing(seen, newest)).toEqual([
    { title: 'Bumper off', seen: '2.4 h', newest: '3 h' },
    { title: 'Clip', seen: '2 for 4.00', newest: '3 for 6.00' },
  ])
})
