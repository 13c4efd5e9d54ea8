import { expect, test } from 'vitest'
import type { Problem } from '../../../lib/api/client'
import { formOf, isBeside, isOfFacts } from './car.svelte'

const refused = (...pointers: string[]): Problem => ({
  type: 'invalid',
  title: 'Look at it once more',
  status: 400,
  detail: '',
  errors: pointers.map((pointer) => ({ pointer, detail: 'Enter a number.' })),
})
const form = formOf({ attributes: { roof: 'high' }, capacities: { 'brake fluid': '1' } })

test.each(['/title', '/vin', '/attributes/roof', '/capacities/engine oil', '/capacities/brake fluid'])(
  '%s is said at its field',
  (pointer) => {
    expect(isBeside(refused(pointer), form)).toBe(false)
  },
)

test.each([[['/customer']], [['/capacities']], [['/title', '/capacities/gear oil']], [[]]])(
  'of %j something has no field and is said above the form',
  (pointers) => {
    expect(isBeside(refused(...pointers), form)).toBe(true)
  },
)

test.each([
  ['/capacities/engine oil', true],
  ['/attributes/roof', true],
  ['/vin', false],
])('%s opens the facts: %s', (pointer, opens) => {
  expect(isOfFacts(refused(pointer))).toBe(opens)
})
