import { expect, test } from 'vitest'
import { following, type Problem } from './problems'

const problem = (inside: unknown = null): Problem => ({
  isConnected: true,
  contains: (other) => other !== null && other === inside,
})
const [a, b, c] = [problem(), problem(), problem()]

test('the way begins at the first problem and begins again after the last', () => {
  expect(following([], null, null)).toBe(-1)
  expect(following([a, b, c], null, null)).toBe(0)
  expect(following([a, b, c], { place: 0, element: a }, null)).toBe(1)
  expect(following([a, b, c], { place: 2, element: c }, null)).toBe(0)
})

test('a mended problem leaves its position to the next one', () => {
  expect(following([a, c], { place: 1, element: b }, null)).toBe(1)
  expect(following([a], { place: 1, element: b }, null)).toBe(0)
})

test('the problem with the focus counts before the last one', () => {
  const field = {} as Element
  expect(following([a, problem(field), c], { place: 2, element: c }, field)).toBe(2)
})
