import { expect, test } from 'vitest'
import type { Import } from '../fileReader.svelte'
import { cartons, type ImportLine, rowsBetween, stepOf, stepOut } from './steps'

const step = (id: string, what: object) => ({
  id,
  sheet: '',
  rows: [],
  field: '',
  text: '',
  question: '',
  carton: '',
  bag: '',
  ...what,
})
const line = (row: number) => ({ sheet: '', row }) as ImportLine
const file = {
  steps: [
    step('1', { do: 'value', rows: [5], field: 'quantity', text: '2' }),
    step('2', { do: 'leave_out', rows: [6, 7] }),
    step('3', { do: 'value', rows: [5, 8], field: 'quantity', text: '3' }),
  ],
} as unknown as Import

test('the last step that wrote a cell is the one to undo', () => {
  expect(stepOf(file, line(5), 'quantity')).toBe('3')
  expect(stepOf(file, line(5), 'when')).toBeUndefined()
  expect(stepOf(file, line(9), 'quantity')).toBeUndefined()
})

test('a row left out knows its step; a row of another sheet does not', () => {
  expect(stepOut(file, '', 7)).toBe('2')
  expect(stepOut(file, 'Other', 7)).toBeUndefined()
})

test('bags stand under their carton, in the order of the list', () => {
  const place = (carton: string, bag: string, lines: number) => ({
    place: 0,
    carton,
    bag,
    lines,
    must_fix: 0,
    please_check: 0,
  })
  const list = cartons([place('1', 'A', 2), place('2', 'C', 1), place('1', 'B', 3)])
  expect(list.map(({ label, lines }) => [label, lines])).toEqual([
    ['1', 5],
    ['2', 1],
  ])
  expect(list[0]?.bags.map(({ bag }) => bag)).toEqual(['A', 'B'])
})

test('a range takes only rows of the list, in either order', () => {
  const lines = [3, 5, 8, 13].map(line)
  expect(rowsBetween(lines, 4, 8)).toEqual([5, 8])
  expect(rowsBetween(lines, 8, 4)).toEqual([5, 8])
})
