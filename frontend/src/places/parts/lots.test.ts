import { expect, test } from 'vitest'
import { learn } from '../../lib/text'
import { parts } from '../../lib/words/parts'
import { grouped, type Line } from './groups'
import { holds, kitNames, kitsOfLines, lotsOf } from './lots'
import { whereOf } from './names'

learn(parts)

let at = 0
function row(kit: string, carton: string, bag: string): { line: Line } {
  at += 1
  return { line: { id: `l${at}`, kind: 'box', kit, carton, bag } as Line }
}
const names = (rows: { line: Line }[]) => [...lotsOf(grouped(rows)).values()].map((lot) => lot.fullName)

test('of one kit a place needs no other name than its own', () => {
  const rows = [row('A', '1', '1-01'), row('A', '1', '')]
  expect(names(rows)).toEqual(['Carton 1', 'Bag 1-01', 'Loose in carton 1'])
  expect(kitsOfLines(grouped(rows))).toEqual(new Map())
})

test('of several kits each place says whose it is, and is short under the name of its kit', () => {
  const rows = [row('A', '1', '1-01'), row('B', '1', '1-01')]
  expect(names(rows)).toEqual(['Carton 1, A', 'Bag 1-01, A', 'Carton 1, B', 'Bag 1-01, B'])
  expect([...lotsOf(grouped(rows)).values()].map((lot) => lot.name)).toEqual([
    'Carton 1',
    'Bag 1-01',
    'Carton 1',
    'Bag 1-01',
  ])
})

test('two copies of a kit are told apart', () => {
  const rows = [...['1', '2', '1', '2'].map((carton) => row('A', carton, '')), row('B', '1', '')]
  expect([...kitNames(grouped(rows)).values()]).toEqual(['A (1 of 2)', 'A (2 of 2)', 'B'])
  expect(names(rows)).toContain('Carton 2, A (2 of 2)')
})

test('a line says in which kit it lies', () => {
  const [first, second] = [row('A', '1', '1-01'), row('B', '1', '1-01')] as const
  const kits = kitsOfLines(grouped([first, second]))
  expect(whereOf(second.line, kits.get(second.line.id))).toBe('Bag 1-01, B')
  expect(whereOf({ ...first.line, kind: 'need' }, 'A')).toBe('From the shelf')
})

test('a carton holds its lines and bags, a bag its lines', () => {
  const lots = [...lotsOf(grouped([row('A', '1', '1-01'), row('A', '1', '1-02')])).values()]
  expect(lots.map(holds)).toEqual(['2 lines, 2 bags', '1 line', '1 line'])
})
