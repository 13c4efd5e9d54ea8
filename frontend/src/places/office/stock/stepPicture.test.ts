import { expect, test } from 'vitest'
import { layersOf, loopOf, waitsOf, withoutImplied } from './stepOrder'
import { broken, type PicturedStep, picture } from './stepPicture'

/** Steps from "A B<A C<A,B": a title is the code in words. */
const steps = (text: string): PicturedStep[] =>
  text.split(' ').map((piece) => {
    const [operation = '', after = ''] = piece.split('<')
    return { operation, after: after ? after.split(',') : [], title: `Work on ${operation}` }
  })
const waits = (text: string) => waitsOf(steps(text))

test('a step waits for the steps of the list alone, and what others imply is no arrow', () => {
  expect(waits('A B<A,GHOST,A C<B,A')).toEqual([[], [0], [0, 1]])
  expect(withoutImplied(waits('A B<A C<B,A D<A,C'))).toEqual([[], [0], [1], [2]])
  expect(withoutImplied(waits('A B C<A,B'))).toEqual([[], [], [0, 1]])
})

test('a layer is the length of the longest way from the start, wherever the step stands in the list', () => {
  expect(layersOf(waits('A B<A C<B D<A,C E'))).toEqual([0, 1, 2, 3, 0])
  expect(layersOf(waits('C<B B<A A'))).toEqual([2, 1, 0])
})

test('a layer with a limit sends the next step on, and nothing comes before what it waits for', () => {
  expect(layersOf(waits('A B C D<A E<C'), 2)).toEqual([0, 0, 1, 1, 2])
})

test('a loop is named step by step, and what only waits for it is not in it', () => {
  expect(loopOf(waits('A B<A C<B'))).toEqual([])
  expect(loopOf(waits('A B<C,A C<D D<B E<D'))).toEqual([1, 2, 3])
  expect(loopOf(waits('A<A'))).toEqual([0])
})

const LONG = steps('A B<A C<A D<A E<A F<B,C G<D H<F,G I<A J<I,H K<J')
test.each([326, 360, 480, 1100])('no box covers another or leaves a room of %i pixels', (room) => {
  const { boxes, width, height, heads } = picture(LONG, room)
  expect(boxes.map(({ at }) => at)).toEqual(LONG.map((_, at) => at))
  expect(heads).toHaveLength(LONG.length - 1)
  if (room < 600) expect(width).toBe(room)
  for (const [at, a] of boxes.entries()) {
    expect(a.x >= 0 && a.y >= 0 && a.x + a.width <= width && a.y + a.height <= height).toBe(true)
    expect(Math.min(a.width, a.height)).toBeGreaterThanOrEqual(44)
    for (const b of boxes.slice(at + 1))
      expect(
        a.x + a.width <= b.x || b.x + b.width <= a.x || a.y + a.height <= b.y || b.y + b.height <= a.y,
      ).toBe(true)
  }
})

test('a step comes right of what it waits for in a wide room, and below it in a narrow one', () => {
  for (const [room, side] of [
    [1100, 'x'],
    [326, 'y'],
  ] as const) {
    const { boxes } = picture(LONG, room)
    for (const [at, befores] of waitsOf(LONG).entries())
      for (const before of befores) expect(boxes[at]?.[side]).toBeGreaterThan(boxes[before]?.[side] ?? 0)
  }
})

test('a chain is a straight line, and nothing is drawn of no steps', () => {
  expect(new Set(picture(steps('A B<A C<B'), 326).boxes.map(({ x }) => x)).size).toBe(1)
  expect(new Set(picture(steps('A B<A C<B'), 900).boxes.map(({ y }) => y)).size).toBe(1)
  expect(picture([], 326)).toMatchObject({ boxes: [], ways: [], height: 0 })
})

test('a title is broken between words, and inside a word that is longer than a line', () => {
  expect(broken('Take the front bumper off', 10)).toEqual(['Take the', 'front', 'bumper off'])
  expect(broken('Stoßstangenträger', 8)).toEqual(['Stoßstan', 'genträge', 'r'])
})
