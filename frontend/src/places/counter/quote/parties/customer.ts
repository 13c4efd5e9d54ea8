import { type Answer, write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'
import { formName } from '../../../../lib/app/keptFields.svelte'

export type Customer = Shape<'CustomerOut'>

interface Form {
  name: string
  phone: string
  email: string
  address: string
}

const EMPTY: Form = { name: '', phone: '', email: '', address: '' }

/** Returns the name under which the form of a customer keeps what is typed: of a recorded one by the id. */
export const customerForm = (id = '') => formName(`customer ${id}`)

/** Returns the name under which a screen keeps the words of its search for a customer. */
export const customerSearch = () => formName('customer-search')

/** Returns the initial values of a customer's form. */
export function formOf(customer: Partial<Customer>): Form {
  const { name, phone, email, address } = { ...EMPTY, ...customer }
  return { name, phone, email, address }
}

/** Saves a new customer or the changes to a recorded one. */
export function keepCustomer(
  form: Form,
  before: Customer | undefined,
  send = write,
): Promise<Answer<Customer>> {
  const body = {
    name: form.name.trim(),
    phone: form.phone.trim(),
    email: form.email.trim(),
    address: form.address.trim(),
  }
  if (!before) return send('post', 'customers', {}, body)
  return send('patch', 'customers/{id}', { id: before.id }, changed(body, before), {
    match: `"${before.version}"`,
  })
}

/**
 * Returns the fields that differ from the recorded customer. The others are not sent, so that another person's change
 * to them stays.
 */
function changed(body: Form, before: Customer): Partial<Form> {
  return Object.fromEntries(
    Object.entries(body).filter(([field, value]) => value !== before[field as keyof Form]),
  )
}
