// Words amounts, quantities and hours as the server sent them. Nothing here adds, rounds or converts:
// the digits after the point are shown exactly as they came.

import { numbers, point } from './language'

const DECIMAL = /^(-?)(\d+)(?:\.(\d+))?$/

/** "15692.40" -> "15,692.40"; an exponent pads with noughts, it never cuts. What is no decimal comes back as it is. */
export function amount(value: string, exponent = 0): string {
  const parts = DECIMAL.exec(value)
  if (!parts) return value
  const [, sign = '', whole = '0', rest = ''] = parts
  const places = rest.padEnd(exponent, '0')
  return `${sign ? '\u2212' : ''}${numbers.format(BigInt(whole))}${places && point + places}`
}

/** Hours, quantities, factors: the noughts that end a fraction go ("1.80" -> "1.8", "5.0000" -> "5"). */
export function plain(value: string): string {
  return amount(DECIMAL.test(value) && value.includes('.') ? value.replace(/\.?0+$/, '') : value)
}

/** "0.00": whether an amount, a quantity or hours are nothing at all. */
export function isNothing(value: string): boolean {
  return /^-?0+(?:\.0+)?$/.test(value)
}
