import { type Answer, write } from '../../../../lib/api/client'
import type { Shape } from '../../../../lib/api/types'

export type Customer = Shape<'CustomerOut'>

interface Form {
  name: string
  phone: string
  email: string
  address: string
}

const EMPTY: Form = { name: '', phone: '', email: '', address: '' }

/** The initial values of a form about a customer. */
export function formOf(customer: Partial<Customer>): Form {
  const { name, phone, email, address } = { ...EMPTY, ...customer }
  return { name, phone, email, address }
}

/** Sends a form about a customer: a new one, or the changes to a known one. */
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

/** The fields that differ from the recorded customer. Others are not sent, so another person's change to them stays. */
function changed(body: Form, before: Customer): Partial<Form> {
  return Object.fromEntries(
    Object.entries(body).filter(([field, value]) => value !== before[field as keyof Form]),
  )
}
