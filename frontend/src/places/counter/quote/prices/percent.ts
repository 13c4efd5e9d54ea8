/** Converts a share to per cent with two decimals by moving the point: "0.304" gives "30.40". Rounds nothing. */
export function percent(rate: string): string {
  const [, sign = '', whole = '0', rest = ''] = /^(-?)(\d+)(?:\.(\d+))?$/.exec(rate) ?? []
  const digits = rest.padEnd(2, '0')
  const moved = `${whole}${digits.slice(0, 2)}`.replace(/^0+(?=\d)/, '')
  return `${sign ? '\u2212' : ''}${moved}.${digits.slice(2).padEnd(2, '0')}`
}
