import { expect, test } from 'vitest'
import type { Shape } from '../../../lib/api/types'
import { bodyOf, changedFields, typedOf } from './kitForm'

const KIT = {
  title: 'Turbo',
  number: 'TC-35',
  supplier_id: null,
  labour_id: 'a1',
  price: '2500.00',
  hours: null,
  lead_days: 0,
  conditions: 'drive=rear',
  fitted_before: 0,
} as Shape<'KitOut'>

test('an empty field of a kit is sent as none, and a nought as one', () => {
  const form = typedOf(KIT)
  expect([form.hours, form.days, form.fitted, form.supplier]).toEqual(['', '0', '0', ''])
  expect(bodyOf({ ...form, price: ' 2,500.50 ', fitted: '' })).toEqual({
    title: 'Turbo',
    number: 'TC-35',
    supplier: null,
    labour: 'a1',
    price: '2500.50',
    hours: null,
    lead_days: 0,
    fits: 'drive=rear',
    fitted_before: 0,
  })
  expect(bodyOf({ ...form, days: ' ' }).lead_days).toBeNull()
})

test('only what was typed goes over what a colleague saved', () => {
  const begun = typedOf(KIT)
  const typed = changedFields({ ...begun, price: '2600' }, begun)
  const saved = typedOf({ ...KIT, lead_days: 11 })
  expect({ ...saved, ...typed }).toEqual({ ...begun, price: '2600', days: '11' })
  expect(changedFields(begun, begun)).toEqual({})
})
