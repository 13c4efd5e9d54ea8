import { expect, it } from 'vitest'
import type { Tally } from '../../../calc/counting'
import { type LineStanding, lineFigures, lineStanding } from '../../../calc/lineFigures'
import parts from '../../../lib/messages/en-GB/parts.ftl'
import { learn } from '../../../lib/text/text'
import { boxWords, faultWords, resultWords } from './lineWords'

learn(parts)

const counted = (total: number, damaged = 0): Tally => ({ total, damaged, low: total, confirm: false })
const right = lineStanding(4, counted(4), 'box')
const short = lineStanding(4, counted(3), 'box')
const hurt = lineStanding(4, counted(4, 2), 'box')
const sealed = lineStanding(4, counted(4), 'box', { sealed: true })
const again = lineStanding(4, { total: 4, damaged: 0, low: 3, confirm: true }, 'box')
const untouched = lineStanding(4, null, 'box')
const wrong = lineStanding(4, null, 'box', { wrong_part: 1 })

const head = (...lines: LineStanding[]) => boxWords(lineFigures(lines), '3 lines')

it('gives a bag its tick when every line of it is counted and right', () => {
  expect(head(right, right, right)).toEqual({ words: 'all here, 3 lines', right: true })
})

it('gives a bag with a fault its faults and no tick', () => {
  expect(head(right, right, short)).toEqual({ words: '3 counted, 1 short', right: false })
  expect(head(right, hurt, again)).toEqual({ words: '3 counted, 1 to count again, 1 damaged', right: false })
})

it('says what is left of a bag that is begun, with its faults so far', () => {
  expect(head(right, short, untouched)).toEqual({ words: '1 to count, 1 short', right: false })
  expect(head(untouched, untouched, wrong)).toEqual({ words: '3 to count, 1 wrong part', right: false })
})

it('says of a bag that nobody touched how much lies in it', () => {
  expect(head(untouched, untouched, untouched)).toEqual({ words: '3 lines', right: false })
})

it('says what was accepted sealed apart from what was counted', () => {
  expect(head(right, sealed, sealed)).toEqual({ words: '3 lines, 2 accepted sealed', right: true })
})

it('counts lines, not pieces', () => {
  expect(faultWords(lineFigures([hurt, lineStanding(9, counted(2), 'box')]))).toBe('1 damaged, 1 short')
})

it('says in the index what differs, and "all here" only where all is counted and nothing does', () => {
  const says = (...lines: LineStanding[]) => resultWords(lineFigures(lines))
  expect(says(right, right)).toBe('all here')
  expect(says(right, untouched)).toBe('')
  expect(says(right, short, untouched)).toBe('1 short')
  expect(says(short, hurt, hurt)).toBe('2 damaged, 1 short')
  expect(says(right, again)).toBe('1 to count again')
  expect(says(right, sealed)).toBe('1 accepted sealed')
})
