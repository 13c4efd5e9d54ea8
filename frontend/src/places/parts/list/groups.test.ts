import { expect, test } from 'vitest'
import { find, grouped, type Line, narrowed } from './groups'

let at = 0
function row(change: Partial<Line>): { line: Line } {
  at += 1
  const line = {
    id: `l${at}`,
    position: at,
    kind: 'box',
    kit: 'A',
    number: `P-${at}`,
    title: 'Bolt',
    codes: [],
  }
  return {
    line: {
      ...line,
      quantity: '1',
      pieces: 1,
      unit: 'pc',
      carton: '1',
      bag: '1-01',
      operation: '',
      ...change,
    } as Line,
  }
}
const shape = (rows: { line: Line }[]) =>
  grouped(rows).kits.map(({ kit, cartons }) => [
    kit,
    ...cartons.map(({ label, bags }) => [label, ...bags.map((bag) => [bag.label, bag.rows.length])]),
  ])

test('lines lie in their bags, bags in cartons, cartons in kits', () => {
  const rows = [
    row({}),
    row({ kind: 'beside' }),
    row({ bag: '1-02' }),
    row({ carton: '2', bag: '' }),
    row({ kit: 'B', carton: '2', bag: '' }),
  ]
  expect(shape(rows)).toEqual([
    ['A', ['1', ['1-01', 2], ['1-02', 1]], ['2', ['', 1]]],
    ['B', ['2', ['', 1]]],
  ])
})

test('a second copy of a kit is a box of its own', () => {
  const copy = () => [row({}), row({ carton: '2', bag: '2-01' })]
  expect(shape([...copy(), ...copy()])).toEqual([
    ['A', ['1', ['1-01', 1]], ['2', ['2-01', 1]]],
    ['A', ['1', ['1-01', 1]], ['2', ['2-01', 1]]],
  ])
})

test('packs and re-used parts stand apart', () => {
  const rows = [row({}), row({ kind: 'need', kit: '', carton: '', bag: '' }), row({ kind: 'reused' })]
  const { kits, needs, reused } = grouped(rows)
  expect([kits.length, needs, reused]).toEqual([1, [rows[1]], [rows[2]]])
})

test('what is left out leaves no empty bag or carton behind', () => {
  const [first, ...others] = [row({}), row({ bag: '1-02' }), row({ carton: '2' }), row({ kind: 'need' })]
  const left = narrowed(grouped([first as { line: Line }, ...others]), (row) => row === first)
  expect(left.needs).toEqual([])
  expect(left.kits[0]?.cartons.map(({ bags }) => bags.map(({ label }) => label))).toEqual([['1-01']])
})

const list = [
  row({ number: 'BI-ORG-1425', codes: ['9521234567899'] }),
  row({ number: 'BI-ORG-1425', bag: '1-02' }),
  row({ number: 'BI-HSE-0400', title: 'Oil feed hose', bag: '1-02' }),
  row({ number: 'BI-HSE-0500', title: 'Oil drain hose', carton: '2', bag: 'Bag A: seals' }),
]
const groups = grouped(list)
const look = (typed: string, counted: { line: Line }[] = []) =>
  find(typed, list, groups, (row) => !counted.includes(row))

test.each(['BI-HSE-0400', ' bi-hse-0400', 'BIHSE0400'])('%s is a part number', (typed) => {
  expect(look(typed)).toEqual({ kind: 'line', row: list[2] })
})

test('a code on the part is one too, with or without leading noughts', () => {
  expect(look('9521234567899')).toEqual({ kind: 'line', row: list[0] })
  expect(look('09521234567899')).toEqual({ kind: 'line', row: list[0] })
})

test('of two lines of a part it means the first that waits', () => {
  expect(look('BI-ORG-1425')).toEqual({ kind: 'line', row: list[0] })
  expect(look('BI-ORG-1425', [list[0] as { line: Line }])).toEqual({ kind: 'line', row: list[1] })
  expect(look('BI-ORG-1425', list)).toEqual({ kind: 'line', row: list[0] })
})

test.each([['1-02'], ['bag 1-02']])('%s is a bag', (typed) => {
  expect(look(typed)).toEqual({ kind: 'boxes', keys: [`bag ${list[1]?.line.id}`] })
})

test('a carton is found by its number', () => {
  expect(look('carton 2')).toEqual({ kind: 'boxes', keys: [`carton ${list[3]?.line.id}`] })
})

test.each(['1-01', 'bag 1-01'])('%s of two kits is both bags, and neither is chosen', (typed) => {
  const rows = [row({}), row({ bag: '1-02' }), row({ kit: 'B' })]
  const keys = [`bag ${rows[0]?.line.id}`, `bag ${rows[2]?.line.id}`]
  expect(find(typed, rows, grouped(rows), () => true)).toEqual({ kind: 'boxes', keys })
})

test('a number that a carton and a bag bear is both', () => {
  const rows = [row({ bag: '4' }), row({ carton: '4', bag: '' })]
  const keys = [`bag ${rows[0]?.line.id}`, `carton ${rows[1]?.line.id}`]
  expect(find('4', rows, grouped(rows), () => true)).toEqual({ kind: 'boxes', keys })
  expect(find('carton 4', rows, grouped(rows), () => true)).toEqual({ kind: 'boxes', keys: [keys[1]] })
})

test('a piece of a name shows the lines that have it', () => {
  expect(look('hose')).toEqual({ kind: 'words', rows: [list[2], list[3]] })
})

test('what is not on the list is nothing', () => {
  expect(look('4006381333931')).toEqual({ kind: 'nothing' })
})
