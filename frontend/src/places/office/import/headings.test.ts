import { expect, test } from 'vitest'
import { headingsWith, type KindHeadings, wordsOf } from './headings'

const heading = (name: string, also: string[] = [], words: string[][] = []) => ({
  heading: name,
  also,
  means: `The ${name}.`,
  needed: 'no' as const,
  example: '',
  words,
})
const KINDS: KindHeadings[] = [
  {
    kind: 'kit',
    has_example: true,
    sheets: [
      { name: 'contents', also: [], headings: [heading('quantity', ['Menge', 'qty']), heading('bag')] },
      {
        name: 'needs',
        also: [],
        headings: [heading('quantity'), heading('charge', [], [['pack', 'packs'], ['used']])],
      },
    ],
  },
  {
    kind: 'customers',
    has_example: true,
    sheets: [{ name: 'customers', also: [], headings: [heading('name')] }],
  },
]
const names = (typed: string) =>
  headingsWith(typed, KINDS).flatMap((kind) =>
    kind.sheets.flatMap((sheet) =>
      sheet.headings.map((line) => `${kind.kind} ${sheet.name} ${line.heading}`),
    ),
  )

test('nothing typed lists every heading', () => {
  expect(names('  ')).toHaveLength(5)
})

test('a synonym finds its heading in any case', () => {
  expect(names('menge')).toEqual(['kit contents quantity'])
})

test('every typed word has to stand in the heading or in the name of its sheet', () => {
  expect(names('needs quantity')).toEqual(['kit needs quantity'])
  expect(names('quantity carton')).toEqual([])
})

test('a word that a cell may hold finds its heading', () => {
  expect(names('packs')).toEqual(['kit needs charge'])
})

test('words of one meaning are listed with commas, meanings with semicolons', () => {
  expect(wordsOf(heading('charge', [], [['pack', 'packs'], ['used']]))).toBe('pack, packs; used')
})
