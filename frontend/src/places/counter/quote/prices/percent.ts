/** "0.304" -> "30.40": the point moves two places, always with two decimals and nothing rounded. */
export function percent(rate: string): string {
  const [, sign = '', whole = '0', rest = ''] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(rate) ?? []
  const digits = rest.padEnd(2, '0')
  const moved = `${whole}${digits.slice(0, 2)}`.replace(/^0+(?=\d)/, '')
  return `${sign ? '\u2212' : ''}${moved}.${digits.slice(2).padEnd(2, '0')}`
}
