import type { Shape } from '../../../lib/api/types'
import { typed } from '../../../lib/figures/typedDecimal'

type Kit = Shape<'KitOut'>

export interface TypedKit {
  title: string
  number: string
  supplier: string
  labour: string
  price: string
  hours: string
  days: string
  fits: string
  fitted: string
}

/** Returns the fields of a kit as the form begins. */
export const typedOf = (kit: Kit): TypedKit => ({
  title: kit.title,
  number: kit.number,
  supplier: kit.supplier_id ?? '',
  labour: kit.labour_id ?? '',
  price: kit.price ?? '',
  hours: kit.hours ?? '',
  days: String(kit.lead_days ?? ''),
  fits: kit.conditions,
  fitted: String(kit.fitted_before),
})

/** Returns the request of the typed fields. */
export const bodyOf = (form: TypedKit): Shape<'KitChangeRequest'> => ({
  title: form.title,
  number: form.number,
  supplier: form.supplier || null,
  labour: form.labour || null,
  price: typed(form.price) || null,
  hours: typed(form.hours) || null,
  lead_days: wholeOf(form.days),
  fits: form.fits,
  fitted_before: wholeOf(form.fitted) ?? 0,
})

/** Returns the fields that a person changed. */
export const changedFields = (form: TypedKit, begun: TypedKit): Partial<TypedKit> =>
  Object.fromEntries(
    Object.entries(form).filter(([field, value]) => value !== begun[field as keyof TypedKit]),
  )

export const wholeOf = (text: string): number | null => (text.trim() ? Number(text) : null)
