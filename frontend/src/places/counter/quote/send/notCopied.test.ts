import { expect, test } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import { notCopied } from './notCopied'

learn(words)
const line = { override: null }
const quote = {
  kits: [line],
  extras: [],
  outside: [line],
  needs: [{ ...line, charged_because: 'rules' }],
  labour: { operations: [line] },
  discount: null,
  note: '',
  customer_note: '',
  condition: 'none',
  here: false,
  here_from: null,
}

test('a quote of lines alone is copied whole', () => {
  expect(notCopied(quote as never)).toEqual([])
})

test('what belongs to the customer and the vehicle is named', () => {
  const own = {
    ...quote,
    labour: { operations: [line, { override: { value: '1.0', because: 'x' } }] },
    needs: [{ ...line, charged_because: 'chosen' }],
    discount: { percent: '5' },
    customer_note: 'As agreed',
    condition: 'light',
    here_from: '2026-12-01',
  }
  expect(notCopied(own as never)).toEqual([
    'the discount',
    'your own figures',
    'how fluids are charged',
    'the notes',
    'corroded fasteners',
    'the day the vehicle comes',
  ])
})
