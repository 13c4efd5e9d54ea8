import { expect, test } from 'vitest'
import office from '../../../lib/messages/en-GB/office.ftl'
import { learn } from '../../../lib/text/text'
import { amountOf, chargeOf, figureOf, type Need, termsOf } from './needs'

learn(office)

const need = (fields: Partial<Need>): Need => ({
  title: '',
  number: '',
  rule: 'fixed',
  quantity: '1',
  unit: 'L',
  of: '',
  charge: 'pack',
  operation: '',
  ...fields,
})

test('what depends on nothing is a figure', () => {
  expect(figureOf(need({ quantity: '0.3000' }))).toBe('0.3 L')
  expect(amountOf(need({}))).toEqual([])
  expect(figureOf(need({ rule: 'bead' }))).toBeNull()
})

test.each<[Partial<Need>, string]>([
  [{ rule: 'of_capacity', of: 'engine oil' }, 'as much as the engine oil circuit holds'],
  [{ rule: 'of_capacity', quantity: '0.5', of: 'coolant' }, '0.5 of what the coolant circuit holds'],
  [{ rule: 'per_fastener', quantity: '0.04', unit: 'mL', of: '34' }, '0.04 mL for each of 34 fasteners'],
  [{ rule: 'bead', quantity: '1.6', of: '3' }, 'a bead 1.6 m long and 3 mm wide'],
  [
    { rule: 'refill', quantity: '0.4', of: 'coolant' },
    'refilling the coolant, with 0.4 L more for what the kit adds',
  ],
  [{ rule: 'unheard of' as Need['rule'], quantity: '2', of: 'x' }, '2 L x'],
])('%o in words', (fields, words) => {
  expect(amountOf(need(fields))).toEqual([words])
})

test('how it is charged', () => {
  const charges = ['pack', 'used', 'supplies'] as const
  expect(charges.map((charge) => chargeOf(need({ charge })))).toEqual([
    'charged in whole packs',
    'charged as used',
    'covered by shop supplies',
  ])
})

test('work by another firm says how long it takes, what waits for it and what it needs', () => {
  const work = {
    title: 'Calibration',
    firm: 'Lathe & Lambda',
    days: 3,
    starts_after: 'TC-01',
    needed_by: 'TC-23',
    they_do: '',
    they_need: 'build sheet',
    rounds: 2,
  }
  expect(termsOf(work)).toEqual(['3 working days', 'needed for TC-23', '2 rounds', 'they need: build sheet'])
  expect(termsOf({ ...work, days: null, needed_by: '', they_need: '', rounds: null })).toEqual([])
})
