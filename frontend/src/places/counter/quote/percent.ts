import { plain } from '../../../lib/money'

/** "0.3023" -> "30.23": the point moves two places, nothing is rounded. */
export function percent(rate: string): string {
  const [, sign = '', whole = '0', rest = ''] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(rate) ?? []
  const digits = rest.padEnd(2, '0')
  const moved = `${whole}${digits.slice(0, 2)}`.replace(/^0+(?=\d)/, '')
  return plain(`${sign}${moved}.${digits.slice(2) || '0'}`)
}
