// Searches the headings of the kinds of files.
import type { Data } from '../../../lib/api/types'

export type KindHeadings = Data<'get', 'lists/headings'>['kinds'][number]
type FileHeading = KindHeadings['sheets'][number]['headings'][number]

/** Returns the kinds with the headings that hold every typed word; a sheet or a kind without one is left out. */
export function headingsWith(typed: string, kinds: readonly KindHeadings[]): KindHeadings[] {
  const words = typed.toLowerCase().split(/\s+/).filter(Boolean)
  if (!words.length) return [...kinds]
  return kinds
    .map((kind) => ({
      ...kind,
      sheets: kind.sheets
        .map((sheet) => ({
          ...sheet,
          headings: sheet.headings.filter((heading) => holds(`${sheet.name} ${textOf(heading)}`, words)),
        }))
        .filter((sheet) => sheet.headings.length),
    }))
    .filter((kind) => kind.sheets.length)
}

/** Returns the words that a cell may hold as one text: those of one meaning with commas, meanings with semicolons. */
export function wordsOf(heading: FileHeading): string {
  return heading.words.map((group) => group.join(', ')).join('; ')
}

const textOf = (heading: FileHeading) =>
  [heading.heading, ...heading.also, heading.means, wordsOf(heading)].join(' ').toLowerCase()

const holds = (text: string, words: readonly string[]) => words.every((word) => text.includes(word))
