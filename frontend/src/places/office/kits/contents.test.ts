import { expect, test } from 'vitest'
import { type KitLine, packed } from './contents'

const line = (kind: string, depth: number, label: string, number = '', title = '') =>
  ({ kind, depth, label, number, title }) as KitLine
const part = (depth: number, number: string, title = 'Bolt') => line('part', depth, '', number, title)

const shape = (lines: KitLine[], ending = '') =>
  packed(lines, ending).map((carton) => [
    carton.label,
    carton.parts,
    carton.bags.map((bag) => [bag.label, bag.parts.map((part) => part.number)]),
  ])

test('parts lie in their bag, bags in their carton', () => {
  expect(
    shape([
      line('carton', 0, '1'),
      line('bag', 1, '1-01'),
      part(2, 'A'),
      part(2, 'B'),
      line('bag', 1, '1-02'),
      part(2, 'C'),
      line('carton', 0, '2'),
      part(1, 'D'),
    ]),
  ).toEqual([
    [
      '1',
      3,
      [
        ['1-01', ['A', 'B']],
        ['1-02', ['C']],
      ],
    ],
    ['2', 1, [['', ['D']]]],
  ])
})

test('what lies loose after a bag is not in the bag', () => {
  expect(shape([line('carton', 0, '1'), line('bag', 1, '1-01'), part(2, 'A'), part(1, 'B')])).toEqual([
    [
      '1',
      2,
      [
        ['1-01', ['A']],
        ['', ['B']],
      ],
    ],
  ])
})

test('parts loose in one carton are not in the next', () => {
  expect(shape([line('carton', 0, '1'), part(1, 'A'), line('carton', 0, '2'), part(1, 'B')])).toEqual([
    ['1', 1, [['', ['A']]]],
    ['2', 1, [['', ['B']]]],
  ])
})

test('bags without a carton, and parts without either', () => {
  expect(shape([line('bag', 0, 'X'), part(1, 'A'), line('bag', 0, 'Y'), part(1, 'B'), part(0, 'C')])).toEqual(
    [
      [
        '',
        3,
        [
          ['X', ['A']],
          ['Y', ['B']],
          ['', ['C']],
        ],
      ],
    ],
  )
})

test('a part in no carton that follows a carton stands by itself', () => {
  expect(shape([line('carton', 0, '1'), part(1, 'A'), part(0, 'B')])).toEqual([
    ['1', 1, [['', ['A']]]],
    ['', 1, [['', ['B']]]],
  ])
})

test('looking for a piece leaves only the bags that have it', () => {
  const lines = [
    line('carton', 0, '1'),
    line('bag', 1, '1-01'),
    part(2, 'BI-1', 'Gasket'),
    line('bag', 1, '1-02'),
    part(2, 'BI-2', 'Bolt M8'),
  ]
  expect(shape(lines, ' bolt ')).toEqual([['1', 1, [['1-02', ['BI-2']]]]])
  expect(shape(lines, 'bi-1')).toEqual([['1', 1, [['1-01', ['BI-1']]]]])
  expect(shape(lines, 'none such')).toEqual([])
})
