// Shows figures of the price rules: which text stands at the right of a row, and which stands under its name.
import type { Shape } from '../../../lib/api/types'

export type RuleField = Shape<'RuleFieldOut'>
export type RuleColumn = Shape<'RuleColumnOut'>
export type RuleRow = Record<string, string>

const FIGURES: readonly string[] = [
  ...['percent', 'money', 'cost', 'factor', 'number', 'hours', 'litres', 'whole'],
  ...['days', 'months', 'years', 'flag'],
]

/** Returns whether the text is short enough to stand at the right of its row. */
export function isFigure({ kind }: Pick<RuleColumn, 'kind'>): boolean {
  return FIGURES.includes(kind)
}

/** Returns the text of a cell as it is read: a percentage has its sign, a choice its name. */
export function cell(column: RuleColumn, text: string): string {
  if (!text) return ''
  if (column.kind === 'percent') return `${text}\u00a0%`
  return column.choices.find(({ value }) => value === text)?.title ?? text
}

interface RowWords {
  what: string
  figure: string | undefined
  rest: string[]
}

/** Returns a row of a table as one line: its name, its first figure, and the other cells with their headings. */
export function rowWords(columns: readonly RuleColumn[], row: RuleRow, rest: string): RowWords {
  const [first, ...others] = columns
  const figure = others.find((column) => isFigure(column) && row[column.name])
  return {
    what: (first && cell(first, row[first.name] ?? '')) || rest,
    figure: figure && cell(figure, row[figure.name] ?? ''),
    rest: others
      .filter((column) => column !== figure && row[column.name])
      .map((column) => `${column.title}: ${cell(column, row[column.name] ?? '')}`),
  }
}
