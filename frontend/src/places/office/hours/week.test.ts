import { expect, test } from 'vitest'
import { read, written } from './week'

test('the hours of a day are read as they are written', () => {
  const spans = [
    { opens: '08:00', closes: '12:00' },
    { opens: '12:45', closes: '17:30' },
  ]
  expect(read(written(spans))).toEqual(spans)
})

test('dashes, "to", semicolons and blanks are read alike', () => {
  expect(read(' 8 to 12 ; 12.45 – 17:30,')).toEqual([
    { opens: '8', closes: '12' },
    { opens: '12.45', closes: '17:30' },
  ])
})

test('an empty day is closed, and a lone time is left for the server to refuse', () => {
  expect(read('  ')).toEqual([])
  expect(read('8:00')).toEqual([{ opens: '8:00', closes: '8:00' }])
})
