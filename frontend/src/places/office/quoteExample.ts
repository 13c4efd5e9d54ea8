import { t } from '../../lib/text/text'

/** An answer that shows something on one quote, with the quotes to choose from. */
export interface ExampleOf {
  quote: string | null
  words: string
  quotes: readonly { id: string; title: string }[]
}

export interface Compared {
  title: string
  now: string | null
  then: string | null
  moved?: boolean
}

/** The headings of the figures now and by the change. */
export const exampleHeads = (): [string, string] => [t('office.example.now'), t('office.example.then')]

/** The rows of a table of figures now and by the change. */
export const comparedRows = (rows: readonly Compared[]) =>
  rows.map(({ title, now, then, moved }) => ({
    title,
    moved,
    before: now ?? t('office.rules.no_side'),
    after: then ?? t('office.rules.no_side'),
  }))
