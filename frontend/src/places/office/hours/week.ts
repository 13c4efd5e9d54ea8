// The hours of a day as one text, "8:00-12:00, 12:45-17:30". The server checks the times.
export interface Span {
  opens: string
  closes: string
}

/** The text of a day's spans. */
export function written(spans: readonly Span[]): string {
  return spans.map(({ opens, closes }) => `${opens}-${closes}`).join(', ')
}

/** The spans of a text; a piece without a dash closes when it opens, which the server refuses. */
export function read(text: string): Span[] {
  return text
    .split(/[,;]/)
    .map((piece) => piece.trim())
    .filter(Boolean)
    .map((piece) => {
      const [opens = '', closes = opens] = piece.split(/\s*(?:[-–]|to)\s*/)
      return { opens, closes }
    })
}

const WORKDAY = '08:00-12:00, 12:45-17:30'
/** The hours that a shop without any is offered. */
export const PROPOSED: Readonly<Record<string, string>> = {
  mon: WORKDAY,
  tue: WORKDAY,
  wed: WORKDAY,
  thu: WORKDAY,
  fri: WORKDAY,
}
