import { expect, test } from 'vitest'
import type { Problem } from '../../../../lib/api/client'
import { canBeAnother, isOfFacts, modelIn, offeredValues, vehicleAlike } from './vehicle.svelte'

const refused = (...pointers: string[]): Problem => ({
  type: 'invalid',
  title: 'Look at it once more',
  status: 400,
  detail: '',
  errors: pointers.map((pointer) => ({ pointer, detail: 'Enter a number.' })),
})

test.each([
  ['/capacities/engine oil', true],
  ['/attributes/roof', true],
  ['/vin', false],
])('%s opens the facts: %s', (pointer, opens) => {
  expect(isOfFacts(refused(pointer))).toBe(opens)
})

const vehicle = (id: string, more: object) =>
  ({ id, title: 'Tessark T35 estate', attributes: {}, capacities: { 'engine oil': '6.1' }, ...more }) as never
const finds =
  (...items: never[]) =>
  async () =>
    ({ ok: true, data: { items } }) as never

const kit = (...attributes: object[]) => ({ attributes })
const page = (items: object[], next: string | null) => ({ ok: true, data: { items }, next }) as never

test('the values to choose from are those that kits name, each once, of every page', async () => {
  const pages: Record<string, never> = {
    '': page([kit({ attribute: 'model', values: ['T35', 'Hauler'] }), kit()], 'two'),
    two: page(
      [kit({ attribute: 'wear sensor', values: ['rear'] }, { attribute: 'model', values: ['T35'] })],
      null,
    ),
  }
  const offered = await offeredValues(async (cursor) => pages[cursor ?? ''] as never)
  expect(Object.entries(offered)).toEqual([
    ['model', ['Hauler', 'T35']],
    ['wear sensor', ['rear']],
  ])
})

test('kits that cannot be read offer nothing, and at most five pages are read', async () => {
  expect(await offeredValues(async () => ({ ok: false }) as never)).toEqual({})
  let calls = 0
  await offeredValues(async () => page([], `${++calls}`))
  expect(calls).toBe(5)
})

test.each([
  ['transmission', ['automatic', 'manual'], false],
  ['tow bar', ['no', 'yes'], false],
  ['model', ['T35'], true],
])('%s of %j can be another: %s', (attribute, values, can) => {
  expect(canBeAnother(attribute, values)).toBe(can)
})

test('litres come from another vehicle of the model that has them', async () => {
  const form = { title: 'Tessark T35', attributes: { model: 'T35' }, capacities: {} }
  const dry = vehicle('dry', { attributes: { model: 'T35' }, capacities: {} })
  const other = vehicle('other', { attributes: { model: 'Vell' } })
  const alike = vehicle('alike', { attributes: { model: 'T35' } })
  expect(await vehicleAlike(form, undefined, finds(other, dry, alike))).toEqual(alike)
  expect(await vehicleAlike(form, 'alike', finds(other, dry, alike))).toBeNull()
})

test('the vehicle that fills most of what is empty is chosen', async () => {
  const form = { title: 'Tessark T35', attributes: { model: 'T35' }, capacities: { 'engine oil': '6.1' } }
  const none = vehicle('none', { attributes: { model: 'T35' } })
  const less = vehicle('less', { attributes: { model: 'T35' }, capacities: { coolant: '9.0' } })
  const more = vehicle('more', {
    attributes: { model: 'T35' },
    capacities: { coolant: '9.4', 'brake fluid': '1' },
  })
  expect(await vehicleAlike(form, undefined, finds(none, less, more))).toEqual(more)
  expect(await vehicleAlike(form, undefined, finds(none))).toBeNull()
})

test('without a model, a vehicle is alike by its title', async () => {
  const alike = vehicle('alike', {})
  const form = { title: ' tessark t35 Estate ', attributes: { model: '' }, capacities: {} }
  expect(await vehicleAlike(form, undefined, finds(vehicle('x', { title: 'Vell' }), alike))).toEqual(alike)
  expect(
    await vehicleAlike({ title: '', attributes: {}, capacities: {} }, undefined, finds(alike)),
  ).toBeNull()
})

test.each([
  ['Tessark T35 estate', 'T35'],
  ['tessark  t35', 'T35'],
  ['T35 Sport', 'T35 Sport'],
  ['Vell 2.4 coupe', 'Vell 2.4'],
  ['Vell 2.45', ''],
  ['T35 towed by an Oskerry', ''],
  ['', ''],
])('"%s" names the model "%s"', (title, model) => {
  expect(modelIn(title, ['Oskerry', 'T35', 'T35 Sport', 'Vell 2.4', ''])).toBe(model)
})
