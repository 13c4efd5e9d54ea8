/** The most digits before and after the point. */
export interface Room {
  whole: number
  places: number
}

/** Returns the text after one more key: a digit, a point or 'Backspace'. A key that does not fit changes nothing. */
export function after(text: string, key: string, { whole, places }: Room): string {
  if (key === 'Backspace') return text.slice(0, -1)
  if (key === ',' || key === '.') return text.includes('.') || !places ? text : `${text || '0'}.`
  if (!/^\d$/.test(key)) return text
  const next = text === '0' ? key : text + key
  const [before = '', behind = ''] = next.split('.')
  return before.length > whole || behind.length > places ? text : next
}

/** Removes a point at the end: "5." is "5". */
export function complete(text: string): string {
  return text.replace(/\.$/, '')
}
