import { describe, expect, test } from 'vitest'
import type { Tally } from '../../../calc/counting'
import { lineStanding } from '../../../calc/lineFigures'
import { grouped, type Line } from './groups'
import { type Countable, isDone, leading, nextPlace, placesOf, SHELF, waits } from './nextPlace'

/** Returns lines of four pieces from their counts: "4 3 - 2/4 sealed"; 2/4 are two contradicting counts. */
function lines(words: string): Countable[] {
  return words.split(' ').map((word) => {
    if (word === '-') return { standing: lineStanding(4, null, 'box') }
    if (word === 'sealed') return { standing: lineStanding(4, null, 'box', { sealed: true }) }
    const [low = 0, total = low] = word.split('/').map(Number)
    const tally: Tally = { total, damaged: 0, low, confirm: low !== total }
    return { standing: lineStanding(4, tally, 'box') }
  })
}

test('a line waits until it is counted, and again when its counts do not go together', () => {
  expect(lines('- 4 3 2/4 sealed').map(waits)).toEqual([true, false, false, true, false])
})

test('a place is done when none of its lines waits', () => {
  const done = ['4 3', '4 -', '4 2/4', 'sealed 4'].map((words) => isDone(lines(words)))
  expect(done).toEqual([true, false, false, true])
  expect(isDone([])).toBe(false)
})

test('what is counted at the start of a place can be folded, up to the line in hand', () => {
  const rows = (words: string, on = -1) => lines(words).map((row, at) => ({ ...row, on: at === on }))
  expect(leading(rows('4 3 - 4'))).toBe(2)
  expect(leading(rows('4 2/4 4'))).toBe(1)
  expect(leading(rows('4 3 4', 1))).toBe(1)
  expect(leading(rows('4 3 4'))).toBe(3)
})

describe('the next place with something to count', () => {
  let at = 0
  function list(...bags: [bag: string, words: string, kind?: Line['kind']][]) {
    return grouped(
      bags.flatMap(([bag, words, kind = 'box']) =>
        lines(words).map((judged) => {
          at += 1
          return { ...judged, line: { id: `l${at}`, kind, kit: 'A', carton: '1', bag } as Line }
        }),
      ),
    )
  }
  const keysOf = (groups: ReturnType<typeof list>) => placesOf(groups).map(({ key }) => key)

  test('is the first one below, and after the last the first one of all', () => {
    const groups = list(['1-01', '4 -'], ['1-02', '4'], ['1-03', '-'], ['1-04', '4'])
    const [first, second, third, last] = keysOf(groups) as [string, string, string, string]
    expect([null, first, second, third, last].map((key) => nextPlace(groups, key))).toEqual([
      first,
      third,
      third,
      first,
      first,
    ])
  })

  test('is the one in hand only when no other is left, and none when all is counted', () => {
    const groups = list(['1-01', '-'], ['1-02', '4 3'])
    const [first] = keysOf(groups) as [string]
    expect(nextPlace(groups, first)).toBe(first)
    expect(nextPlace(list(['1-01', '4'], ['1-02', '3']), null)).toBeNull()
  })

  test('may be one whose lines are to be counted again', () => {
    const groups = list(['1-01', '4'], ['1-02', '2/4'])
    expect(nextPlace(groups, null)).toBe(keysOf(groups)[1])
  })

  test('may be the shelf, which comes last; what is on the vehicle is not counted', () => {
    const groups = list(['1-01', '4'], ['', '-', 'need'], ['', '-', 'reused'])
    expect(keysOf(groups).at(-1)).toBe(SHELF)
    expect(nextPlace(groups, null)).toBe(SHELF)
    expect(nextPlace(list(['1-01', '4'], ['', '-', 'reused']), null)).toBeNull()
  })
})
