import { type Answer, type Problem, read, write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { formName } from '../../../../lib/app/keptFields.svelte'
import { typed } from '../../../../lib/figures/typedDecimal'

export type Vehicle = Shape<'VehicleOut'>

/** The circuits for which each vehicle has a field, whether the capacity is known or not. */
const CIRCUITS = ['engine oil', 'coolant', 'transmission fluid']

interface Form {
  title: string
  plate: string
  vin: string
  attributes: Record<string, string>
  capacities: Record<string, string>
}

/** Returns the name under which the form of a vehicle keeps what is typed: of a recorded one by the id. */
export const vehicleForm = (id = '') => formName(`vehicle ${id}`)

/** Returns the name under which a screen keeps the words of its search for a vehicle. */
export const vehicleSearch = () => formName('vehicle-search')

/** Returns the initial values of a vehicle's form. */
export function formOf(vehicle?: Partial<Vehicle>): Form {
  const capacities = Object.fromEntries(CIRCUITS.map((name) => [name, '']))
  return {
    title: vehicle?.title ?? '',
    plate: vehicle?.plate ?? '',
    vin: vehicle?.vin ?? '',
    attributes: { model: '', transmission: '', ...vehicle?.attributes },
    capacities: { ...capacities, ...vehicle?.capacities },
  }
}

/** Returns whether an attribute or a capacity has a mistake. */
export function isOfFacts({ errors = [] }: Problem): boolean {
  return errors.some(({ pointer }) => /^\/(attributes|capacities)/.test(pointer))
}

/** Saves a new vehicle or the changes to a recorded one. Empty fields are saved as not recorded. */
export function keepVehicle(
  form: Form,
  before: Vehicle | undefined,
  customer: string | null,
): Promise<Answer<Vehicle>> {
  const body = {
    title: form.title.trim(),
    plate: form.plate.trim(),
    vin: form.vin.trim(),
    attributes: stated(form.attributes, (value) => value.trim()),
    capacities: stated(form.capacities, typed),
  }
  if (!before) return write('post', 'vehicles', {}, { ...body, customer })
  return write('patch', 'vehicles/{id}', { id: before.id }, body, { match: `"${before.version}"` })
}

function stated(from: Record<string, string>, as: (value: string) => string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(from)
      .filter(([, value]) => value.trim())
      .map(([name, value]) => [name, as(value)]),
  )
}

const MOST_PAGES = 5

/**
 * Maps each attribute that the shop's kits, parts or work depend on to its values, both sorted. Leaves out what
 * cannot be read now.
 */
export async function offeredValues(
  look = (cursor?: string) => read('kits', { query: { limit: '200', ...(cursor ? { cursor } : {}) } }),
): Promise<Record<string, string[]>> {
  const offered: Record<string, Set<string>> = {}
  let cursor: string | undefined
  for (let page = 0; page < MOST_PAGES; page++) {
    const answer = await look(cursor)
    if (!answer.ok) break
    for (const { attribute, values } of answer.data.items.flatMap(({ attributes }) => attributes)) {
      offered[attribute] ??= new Set()
      for (const value of values) offered[attribute].add(value)
    }
    cursor = answer.next ?? undefined
    if (!cursor) break
  }
  const sorted = Object.entries(offered).sort(([a], [b]) => (a < b ? -1 : 1))
  return Object.fromEntries(sorted.map(([attribute, values]) => [attribute, [...values].sort()]))
}

/** Returns whether the attribute may have a value that is not offered: not the gearbox, and not a yes or no. */
export function canBeAnother(attribute: string, values: readonly string[]): boolean {
  return attribute !== 'transmission' && !values.every((value) => value === 'yes' || value === 'no')
}

/**
 * Returns the vehicle of the same model, or of the same title if no model is recorded, that fills most of the form's
 * empty capacities; null if none fills any.
 */
export async function vehicleAlike(
  { title, attributes, capacities }: Pick<Form, 'title' | 'attributes' | 'capacities'>,
  own: string | undefined,
  look = (q: string) => read('vehicles', { query: { q, limit: '50' } }),
): Promise<Vehicle | null> {
  const q = title.trim() || attributes.model
  const answer = q ? await look(q) : null
  if (!answer?.ok) return null
  const isAlike = (other: Vehicle) =>
    attributes.model
      ? other.attributes.model === attributes.model
      : other.title.toLowerCase() === title.trim().toLowerCase()
  const fills = (other: Vehicle) => Object.keys(other.capacities).filter((name) => !capacities[name]).length
  return answer.data.items
    .filter((other) => other.id !== own && isAlike(other))
    .reduce<Vehicle | null>((best, other) => (fills(other) > (best ? fills(best) : 0) ? other : best), null)
}

/**
 * Returns the one model that the title names in whole words, the longest if one name contains another; "" if none or
 * several are named.
 */
export function modelIn(title: string, models: readonly string[]): string {
  const words = (text: string) => ` ${text.toLowerCase().split(/\s+/).filter(Boolean).join(' ')} `
  const named = models.filter((model) => model.trim() && words(title).includes(words(model)))
  const longest = named.filter(
    (model) => !named.some((other) => other !== model && words(other).includes(words(model))),
  )
  return longest.length === 1 ? (longest[0] ?? '') : ''
}
