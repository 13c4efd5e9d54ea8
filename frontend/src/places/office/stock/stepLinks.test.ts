import { expect, test } from 'vitest'
import { type Link, lanesOf, linksOf, pairsOf } from './stepLinks'
import { picture } from './stepPicture'

/** Steps from "A B=A C~A": B includes A, and C overlaps with A by 0.3 h. */
const paired = (text: string) =>
  text.split(' ').map((piece) => {
    const [operation = '', kind, other = ''] = piece.split(/([=~])/)
    const overlaps = kind === '~' ? [{ operation: other, hours: '0.3' }] : []
    return { operation, includes: kind === '=' ? [other] : [], overlaps }
  })
const link = (kind: Link['kind'], from: number, to: number): Link => ({ kind, from, to, hours: '' })

test('steps of the list alone are linked, and an overlap that stands with both is one', () => {
  expect(linksOf(paired('A~C B=A C~A D=GHOST'))).toEqual([
    { kind: 'overlaps', from: 0, to: 2, hours: '0.3' },
    { kind: 'includes', from: 1, to: 0, hours: '' },
  ])
  expect(pairsOf({ includes: 'GEN-04\nGEN-05', overlaps: 'QT-08 0.3' })).toEqual({
    includes: ['GEN-04', 'GEN-05'],
    overlaps: [{ operation: 'QT-08', hours: '0.3' }],
  })
  expect(pairsOf({ includes: '', overlaps: '' })).toEqual({ includes: [], overlaps: [] })
})

test('links that pass one layer have lanes of their own, and one within a layer has none', () => {
  const links = [
    link('includes', 0, 2),
    link('overlaps', 3, 2),
    link('overlaps', 1, 0),
    link('includes', 4, 3),
  ]
  expect(lanesOf(links, [0, 0, 2, 3, 4])).toEqual([0, 1, null, 0])
})

const CHAIN = ['A', 'B', 'C', 'D'].map((operation, at, all) => ({
  operation,
  after: all.slice(at - 1, at),
  title: `Work on ${operation}`,
  notes: ['includes 1'],
}))
test.each([326, 1100])('lines stay inside a picture of %i pixels and outside its boxes', (room) => {
  const { links, boxes, width, height } = picture(CHAIN, room, [
    link('includes', 3, 0),
    link('overlaps', 1, 3),
  ])
  expect(links.map(({ marks }) => marks.length)).toEqual([1, 2])
  if (room < 600) expect(width).toBe(room)
  for (const { line } of links) {
    const corners = line
      .slice(1)
      .split('L')
      .map((corner) => corner.split(' ').map(Number))
    expect(corners).toHaveLength(6)
    for (const [x = -1, y = -1] of corners) {
      expect(x >= 0 && x <= width && y >= 0 && y <= height).toBe(true)
      for (const box of boxes)
        expect(x > box.x && x < box.x + box.width && y > box.y && y < box.y + box.height).toBe(false)
    }
  }
})
