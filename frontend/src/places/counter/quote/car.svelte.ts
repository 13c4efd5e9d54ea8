import { type Answer, type Problem, write } from '../../../lib/api/client'
import type { Shape } from '../../../lib/api/types'
import { typed } from './changes'

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
  known: Vehicle | undefined,
  customer: string | null,
): Promise<Answer<Vehicle>> {
  const body = {
    title: form.title.trim(),
    plate: form.plate.trim(),
    vin: form.vin.trim(),
    attributes: stated(form.attributes, (value) => value.trim()),
    capacities: stated(form.capacities, typed),
  }
  if (!known) return write('post', 'vehicles', {}, { ...body, customer })
  return write('patch', 'vehicles/{id}', { id: known.id }, body, { match: `"${known.version}"` })
}

function stated(from: Record<string, string>, as: (value: string) => string): Record<string, string> {
  return Object.fromEntries(
    Object.entries(from)
      .filter(([, value]) => value.trim())
      .map(([name, value]) => [name, as(value)]),
  )
}
