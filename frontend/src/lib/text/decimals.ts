// Formats amounts, quantities and hours from the server. Nothing here adds, rounds or converts: the decimals appear
// as they came.

import { numbers, point } from './language'

const DECIMAL = /^(-?)(\d+)(?:\.(\d+))?$/

/**
 * Formats an amount: "15692.40" gives "15,692.40". `exponent` is the least number of decimals, filled with zeros.
 * Text that is not a decimal stays as it is.
 */
export function amount(value: string, exponent = 0): string {
  const parts = DECIMAL.exec(value)
  if (!parts) return value
  const [, sign = '', whole = '0', rest = ''] = parts
  const places = rest.padEnd(exponent, '0')
  return `${sign ? '\u2212' : ''}${numbers.format(BigInt(whole))}${places && point + places}`
}

/** Formats the change of an amount: "+84.00", "−919.50", and "0.00" for none. */
export function signed(value: string, exponent = 0): string {
  return value.startsWith('-') || isNothing(value) ? amount(value, exponent) : `+${amount(value, exponent)}`
}

function withoutZeros(value: string): string {
  return DECIMAL.test(value) && value.includes('.') ? value.replace(/\.?0+$/, '') : value
}

/** Formats hours, quantities and factors without trailing zeros: "1.80" gives "1.8", "5.0000" gives "5". */
export function plain(value: string): string {
  return amount(withoutZeros(value))
}

/** Formats hours in tenths, so that a column of them lines up: "10" gives "10.0", "1.80" gives "1.8". */
export function tenths(value: string): string {
  return amount(withoutZeros(value), 1)
}

/** Returns whether an amount, a quantity or hours are zero, such as "0.00". */
export function isNothing(value: string): boolean {
  return /^-?0+(?:\.0+)?$/.test(value)
}
