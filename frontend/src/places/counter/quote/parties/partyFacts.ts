import { t } from '../../../../lib/text/text'
import type { Customer } from './customer'
import type { Vehicle } from './vehicle.svelte'

type NamedCustomer = Pick<Customer, 'name' | 'phone' | 'email'>
type NamedVehicle = Pick<Vehicle, 'title' | 'plate' | 'attributes'>

/** Returns the facts that name the customer and the vehicle of a quote, chosen or not. */
export const partyFacts = (customer: NamedCustomer | null, vehicle: NamedVehicle | null) => [
  {
    label: t('quote.box.customer'),
    value: customer?.name ?? t('quote.box.nobody'),
    note: customer && (customer.phone || customer.email),
  },
  {
    label: t('quote.box.vehicle'),
    value: vehicle?.title ?? t('quote.box.no_vehicle'),
    note: vehicle && [vehicle.attributes.transmission, vehicle.plate].filter(Boolean).join(', '),
  },
]
