/**
 * Replaces a decimal comma by a point, and leaves out commas between thousands. The server reports other mistakes,
 * and a single comma before three digits, which may be either.
 */
export function typed(figure: string): string {
  const text = figure.trim()
  if (/^-?\d{1,3}(?:(?:,\d{3})+\.\d+|(?:,\d{3}){2,})$/.test(text)) return text.replaceAll(',', '')
  return /^-?[1-9]\d{0,2},\d{3}$/.test(text) ? text : text.replace(',', '.')
}
