import { expect, test } from 'vitest'
import { fitted } from './photograph'

test.each([
  [4000, 3000, 1600, 1200],
  [3000, 4000, 1200, 1600],
  [1600, 900, 1600, 900],
  [640, 480, 640, 480],
  [20000, 3, 1600, 1],
])('a picture of %i × %i becomes one of %i × %i', (width, height, wide, high) => {
  expect(fitted(width, height)).toEqual({ width: wide, height: high })
})
