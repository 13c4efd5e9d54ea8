import { type Answer, type Problem, read, write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { typed } from '../changes'

export type Vehicle = Shape<'VehicleOut'>

/** The circuits that every vehicle has a capacity for, whether it is known or not. */
const CIRCUITS = ['engine oil', 'coolant', 'transmission fluid']

interface Form {
  title: string
  plate: string
  vin: string
  attributes: Record<string, string>
  capacities: Record<string, string>
}

/** The initial values of a form about a vehicle. */
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

/** Whether the form has no field that shows what is wrong, so that it has to be said above it. */
export function isBeside(problem: Problem, form: Form): boolean {
  const pointers = new Set([
    ...['title', 'plate', 'vin'].map((name) => `/${name}`),
    ...Object.keys(form.attributes).map((name) => `/attributes/${name}`),
    ...Object.keys(form.capacities).map((name) => `/capacities/${name}`),
  ])
  const { errors = [] } = problem
  return !errors.length || errors.some(({ pointer }) => !pointers.has(pointer))
}

/** Whether something is wrong with a fact or a capacity. */
export function isOfFacts({ errors = [] }: Problem): boolean {
  return errors.some(({ pointer }) => /^\/(attributes|capacities)/.test(pointer))
}

/** Sends a form about a vehicle: a new one, or changes to a known one. What was left empty is not stated. */
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
 * Maps each attribute that the shop's kits, their parts or their work depend on to the values to choose from, both
 * sorted. Of what cannot be read now there are none.
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
    cursor = new URLSearchParams(answer.next?.split('?')[1]).get('cursor') ?? undefined
    if (!cursor) break
  }
  const sorted = Object.entries(offered).sort(([a], [b]) => (a < b ? -1 : 1))
  return Object.fromEntries(sorted.map(([attribute, values]) => [attribute, [...values].sort()]))
}

/** Whether a value that is not offered can be one: not of a gearbox, nor where the answer is yes or no. */
export function canBeAnother(attribute: string, values: readonly string[]): boolean {
  return attribute !== 'transmission' && !values.every((value) => value === 'yes' || value === 'no')
}

/** A vehicle of the same model, or of the same title where no model is recorded, with litres to copy. */
export async function vehicleAlike(
  { title, attributes }: Pick<Form, 'title' | 'attributes'>,
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
  return (
    answer.data.items.find(
      (other) => other.id !== own && Object.keys(other.capacities).length > 0 && isAlike(other),
    ) ?? null
  )
}

/** The one model that the title names in whole words, the longest where one name holds another; "" where none or two do. */
export function modelIn(title: string, models: readonly string[]): string {
  const words = (text: string) => ` ${text.toLowerCase().split(/\s+/).filter(Boolean).join(' ')} `
  const named = models.filter((model) => model.trim() && words(title).includes(words(model)))
  const longest = named.filter(
    (model) => !named.some((other) => other !== model && words(other).includes(words(model))),
  )
  return longest.length === 1 ? (longest[0] ?? '') : ''
}
