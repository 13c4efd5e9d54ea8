import { expect, test } from 'vitest'
import { type Customer, formOf, keepCustomer } from './customer'

const customer = {
  id: 'c',
  version: 3,
  name: 'Anwen Holloway',
  phone: '01632 960 417',
  email: '',
  address: '',
} as unknown as Customer

/** Returns the requests that saving the form makes. */
async function sent(form: ReturnType<typeof formOf>, customer?: Customer) {
  const calls: unknown[][] = []
  await keepCustomer(form, customer, (async (...call: unknown[]) => {
    calls.push(call)
    return { ok: true, data: customer }
  }) as never)
  return calls[0]
}

test('a known customer gets an address, and nothing else is sent', async () => {
  const form = { ...formOf(customer), address: ' 4 Saltmarsh Lane ' }
  expect(await sent(form, customer)).toEqual([
    'patch',
    'customers/{id}',
    { id: 'c' },
    { address: '4 Saltmarsh Lane' },
    { match: '"3"' },
  ])
})

test('an address can be removed again', async () => {
  const stored = { ...customer, address: '4 Saltmarsh Lane' }
  expect((await sent({ ...formOf(stored), address: '' }, stored))?.[3]).toEqual({ address: '' })
})

test('a new customer is sent whole', async () => {
  expect(await sent(formOf({ name: 'Harl Farm' }))).toEqual([
    'post',
    'customers',
    {},
    { name: 'Harl Farm', phone: '', email: '', address: '' },
  ])
})
