import { expect, test } from 'vitest'
import { changed, choose, columns, fieldsFor, missing, neededFirst, recognised, written } from './columns'

const field = (name: string, required = false) => ({ field: name, words: `the ${name}`, required })
const read = {
  rows: 12,
  columns: [
    { sheet: 'BOM', column: 'A', heading: 'Part no.', field: 'number' },
    { sheet: 'Needs', column: 'B', heading: 'Part', field: 'number' },
    { sheet: 'Needs', column: 'D', heading: 'Attribute: wear sensor', field: 'attribute:wear sensor' },
  ],
  headings: [
    { sheet: 'BOM', column: 'A', heading: 'Part no.' },
    { sheet: 'BOM', column: 'B', heading: 'How many' },
    { sheet: 'Needs', column: 'B', heading: 'Part' },
    { sheet: 'Needs', column: 'D', heading: 'Attribute: wear sensor' },
  ],
  fields: [field('title'), field('number', true), field('quantity', true), field('attribute')],
}
const readColumns = columns(read)
const now = readColumns.map((column) => column.field)

test('each column stands with the field it is read as', () => {
  expect(now).toEqual(['number', '', 'number', 'attribute:wear sensor'])
})

test('recognised columns stand table by table, in the words of their fields', () => {
  expect(recognised(read)).toEqual([
    { sheet: 'BOM', group: 'BOM', columns: [{ at: 'A', words: 'the number' }] },
    {
      sheet: 'Needs',
      group: 'Needs',
      columns: [
        { at: 'B', words: 'the number' },
        { at: 'D', words: 'wear sensor' },
      ],
    },
  ])
})

test('a column that is called by its letter says what stands in it', () => {
  const heading = { sheet: '', column: 'A', heading: 'column A', table: 'bom' }
  const list = { rows: 0, columns: [], fields: [], headings: [{ ...heading, holds: ['QF-101', 'QF-102'] }] }
  expect(columns(list).map(({ holds }) => holds)).toEqual(['“QF-101”, “QF-102”'])
  expect(changed(columns(list), ['number'], {})).toEqual({ number: 'column A' })
  expect(columns({ ...list, headings: [heading] })[0]?.holds).toBe('')
})

test('a second table in the same sheet has columns of its own', () => {
  const again = { sheet: 'BOM', column: 'A', heading: 'Family', field: 'family' }
  const two = { ...read, columns: [...read.columns, again], headings: [...read.headings, again] }
  expect(columns(two).map((column) => column.field)).toEqual([...now, 'family'])
  const under = { ...two, columns: [read.columns[0], again], headings: [...read.headings.slice(0, 2), again] }
  expect(recognised(under as typeof read).map((table) => table.columns)).toEqual([
    [{ at: 'A', words: 'the number' }],
    [{ at: 'A', words: 'family' }],
  ])
})

test('lists of one sheet, such as those of a CSV, have the names of the lists', () => {
  const heading = (table: string, heading: string) => ({ sheet: '', column: 'A', heading, table })
  const headings = [heading('fees', 'fee'), heading('rates', 'skill')]
  const fields = headings.map(({ heading }) => ({ sheet: '', column: 'A', heading, field: heading }))
  const groups = recognised({ rows: 2, columns: fields, headings, fields: [] }).map(({ group }) => group)
  expect(groups).toEqual(['fees', 'rates'])
  expect(columns({ rows: 1, columns: [], headings: headings.slice(1), fields: [] })[0]?.group).toBe('')
  const shownColumns = columns({ rows: 2, columns: fields, headings, fields: [] })
  const chosen = choose(shownColumns, ['', 'title'], 0, 'title')
  expect(chosen).toEqual(['title', 'title'])
  expect(changed(shownColumns, chosen, { skill: 'fee', 'rates.skill': 'fee' })).toEqual({
    'rates.skill': 'fee',
    'fees.title': 'fee',
    'rates.title': 'skill',
  })
})

test('what must be there is missing only while no row could be read', () => {
  expect(missing(read)).toEqual([])
  expect(missing({ ...read, rows: 0 })).toEqual(['the quantity'])
})

test('a field is held by one column of a sheet', () => {
  expect(choose(readColumns, now, 1, 'number')).toEqual(['', 'number', 'number', 'attribute:wear sensor'])
  expect(choose(readColumns, now, 1, '')).toEqual(now)
})

test('only what was chosen otherwise goes into the mapping', () => {
  expect(changed(readColumns, choose(readColumns, now, 1, 'quantity'), {})).toEqual({ quantity: 'How many' })
  expect(changed(readColumns, now, { bag: 'Tray' })).toBeNull()
})

test('a heading moves from the field it was given to before', () => {
  expect(
    changed(readColumns, choose(readColumns, now, 1, 'title'), { quantity: 'How many', bag: 'Tray' }),
  ).toEqual({
    bag: 'Tray',
    title: 'How many',
  })
})

test('an attribute takes the name of its heading', () => {
  expect(changed(readColumns, choose(readColumns, now, 1, 'attribute'), {})).toEqual({
    'attribute:how many': 'How many',
  })
})

test('headings can be written where none were found', () => {
  expect(written({ number: ' Teil ', title: '' }, { bag: 'Teil' })).toEqual({ number: 'Teil' })
  expect(written({ number: ' ' }, { bag: 'Teil' })).toBeNull()
})

test('a column is offered the fields of its own list, and all while the list is not sure', () => {
  const fields = [
    { ...field('number', true), tables: ['contents', 'needs'] },
    { ...field('off_at'), tables: ['re used'] },
  ]
  const offers = (rows: number, list: string) =>
    fieldsFor({ ...read, columns: [], rows, fields }, list).map((item) => item.field)
  expect(neededFirst({ fields: [...fields, { ...field('off_at', true), tables: ['re used'] }] })).toEqual([
    fields[0],
  ])
  expect(offers(12, 'contents')).toEqual(['number'])
  expect(offers(12, 're used')).toEqual(['off_at'])
  expect(offers(0, 'contents')).toEqual(['number', 'off_at'])
  expect(offers(12, '')).toEqual(['number', 'off_at'])
})
