import { expect, test } from 'vitest'
import office from '../../../lib/messages/en-GB/office.ftl'
import { learn } from '../../../lib/text/text'
import { asCsv, type Finding, place } from './findings'

learn(office)

const finding = (fields: Partial<Finding>): Finding => ({
  sheet: '',
  row: null,
  column: '',
  cell: '',
  weight: 'must_fix',
  words: '',
  remedy: '',
  says: '',
  ...fields,
})

test('the margin names the cell, else the row, else the column', () => {
  expect(place(finding({ cell: 'D47', row: 47, column: 'D' }))).toBe('D47')
  expect(place(finding({ row: 47 }))).toBe('47')
  expect(place(finding({ column: 'D' }))).toBe('D')
  expect(place(finding({}))).toBe('')
})

test('the saved list quotes what needs it and runs nothing', () => {
  const text = asCsv([
    finding({ sheet: 'BOM', cell: 'D47', row: 47, words: 'Row 47: no "number", here', says: '=A1+1' }),
    finding({ weight: 'done_for_you', says: '-2' }),
  ])
  expect(text.split('\r\n')).toEqual([
    '\uFEFFSeverity,Sheet,Cell,What,What to do,It says',
    `must fix,BOM,D47,"Row 47: no ""number"", here",,'=A1+1`,
    "done for you,,,,,'-2",
    '',
  ])
})
