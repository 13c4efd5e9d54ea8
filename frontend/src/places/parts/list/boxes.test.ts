import { expect, test } from 'vitest'
import parts from '../../../lib/messages/en-GB/parts.ftl'
import { learn } from '../../../lib/text/text'
import { boxesOf, holds, kitNames, kitsOfLines, titlesOf } from './boxes'
import { grouped, type Line } from './groups'
import { whereOf } from './lineNames'

learn(parts)

let at = 0
function row(kit: string, carton: string, bag: string): { line: Line } {
  at += 1
  return { line: { id: `l${at}`, kind: 'box', kit, carton, bag } as Line }
}
const TITLES = titlesOf([
  { code: 'A', title: 'Turbo kit' },
  { code: 'B', title: 'Brake kit' },
])
const boxes = (rows: { line: Line }[]) => [...boxesOf(grouped(rows), TITLES).values()]
const names = (rows: { line: Line }[]) => boxes(rows).map((box) => box.fullName)

test('of one kit a place needs no other name than its own', () => {
  const rows = [row('A', '1', '1-01'), row('A', '1', '')]
  expect(names(rows)).toEqual(['Carton 1', 'Bag 1-01', 'Loose in carton 1'])
  expect(kitsOfLines(grouped(rows), TITLES)).toEqual(new Map())
})

test('of several kits each place says whose it is, and is short under the name of its kit', () => {
  const rows = [row('A', '1', '1-01'), row('B', '1', '1-01')]
  expect(names(rows)).toEqual([
    'Carton 1, A. Turbo kit',
    'Bag 1-01, A. Turbo kit',
    'Carton 1, B. Brake kit',
    'Bag 1-01, B. Brake kit',
  ])
  expect(boxes(rows).map((box) => box.name)).toEqual(['Carton 1', 'Bag 1-01', 'Carton 1', 'Bag 1-01'])
})

test('two copies of a kit have different names', () => {
  const rows = [...['1', '2', '1', '2'].map((carton) => row('A', carton, '')), row('B', '1', '')]
  expect([...kitNames(grouped(rows), TITLES).values()]).toEqual([
    { name: 'A. Turbo kit (1 of 2)', short: 'kit A' },
    { name: 'B. Turbo kit (2 of 2)', short: 'kit B' },
    { name: 'C. Brake kit', short: 'kit C' },
  ])
  expect(names(rows)).toContain('Carton 2, B. Turbo kit (2 of 2)')
})

test('a kit whose name has not come yet is headed by its code', () => {
  expect([...kitNames(grouped([row('X', '1', '')]), TITLES).values()]).toEqual([
    { name: 'A. X', short: 'kit A' },
  ])
})

test('a line says in which kit it lies', () => {
  const [first, second] = [row('A', '1', '1-01'), row('B', '1', '1-01')] as const
  const kits = kitsOfLines(grouped([first, second]), TITLES)
  expect(whereOf(second.line, kits.get(second.line.id)?.short)).toBe('Bag 1-01, kit B')
  expect(whereOf({ ...first.line, kind: 'need' }, 'A')).toBe('From the shelf')
})

test('a carton holds its lines and bags, a bag its lines', () => {
  expect(boxes([row('A', '1', '1-01'), row('A', '1', '1-02')]).map(holds)).toEqual([
    '2 lines, 2 bags',
    '1 line',
    '1 line',
  ])
})
