import { expect, test } from 'vitest'
import { cell, isFigure, type RuleColumn, rowWords } from './ruleFigures'

const column = (name: string, title: string, kind: RuleColumn['kind']): RuleColumn => ({
  name,
  title,
  kind,
  choices: [],
})
const FEES = [
  column('code', 'Code', 'text'),
  column('title', 'Title', 'text'),
  column('amount', 'Amount', 'cost'),
  column('fluid', 'Fluid', 'text'),
]

test('a row of a table is one line with its figure at the right', () => {
  expect(rowWords(FEES, { code: 'oil', title: 'Used oil', amount: '0.80', fluid: '' }, 'the rest')).toEqual({
    what: 'oil',
    figure: '0.80',
    rest: ['Title: Used oil'],
  })
})

test('a row without a name is the rest', () => {
  const bands = [column('up_to', 'Up to', 'cost'), column('x', 'Times', 'number')]
  expect(rowWords(bands, { up_to: '', x: '1.2' }, 'the rest')).toEqual({
    what: 'the rest',
    figure: '1.2',
    rest: [],
  })
})

test('a cell is read with its sign or its name', () => {
  expect(cell(column('rate', 'Rate', 'percent'), '7')).toBe('7\u00a0%')
  const kind = { ...column('kind', 'Kind', 'choice'), choices: [{ value: 'optional', title: 'may agree' }] }
  expect(cell(kind, 'optional')).toBe('may agree')
  expect(isFigure(kind)).toBe(false)
})
