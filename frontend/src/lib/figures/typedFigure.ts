/** How long a figure may be: digits before the point and after it. */
export interface Room {
  whole: number
  places: number
}

/** The figure as it stands after one more key: a digit, a point or 'Backspace'. A key that cannot be changes nothing. */
export function after(text: string, key: string, { whole, places }: Room): string {
  if (key === 'Backspace') return text.slice(0, -1)
  if (key === ',' || key === '.') return text.includes('.') || !places ? text : `${text || '0'}.`
  if (!/^\d$/.test(key)) return text
  const next = text === '0' ? key : text + key
  const [before = '', behind = ''] = next.split('.')
  return before.length > whole || behind.length > places ? text : next
}

/** "5." is five. */
export function complete(text: string): string {
  return text.replace(/\.$/, '')
}
