import { expect, test } from 'vitest'
import { Burst } from './burst'

function typed(
  burst: Burst<number | null>,
  keys: string[],
  apart: number,
  value: number | null,
  from = 1000,
) {
  let at = from
  let found = null
  for (const key of keys) {
    found = burst.take({ key, timeStamp: at }, value)
    at += apart
    value = 99
  }
  return found
}

test('a scanner is told from a hand, and the count from before it comes back', () => {
  expect(typed(new Burst(), [...'9521234567890', 'Enter'], 8, 6)).toEqual({
    code: '9521234567890',
    before: 6,
  })
  expect(typed(new Burst(), [...'BI-GSK-1042', 'Enter'], 8, null)).toEqual({
    code: 'BI-GSK-1042',
    before: null,
  })
})

test.each([
  ['a hand that types a count', [...'1250', 'Enter'], 90],
  ['a hurried hand with two digits', [...'12', 'Enter'], 20],
])('%s is no scanner', (_, keys, apart) => {
  expect(typed(new Burst(), keys, apart, null)).toBeNull()
})

test('what a hand typed just before a scan is no part of the code', () => {
  const burst = new Burst<number | null>()
  burst.take({ key: '4', timeStamp: 500 }, null)
  expect(typed(burst, [...'BAG207', 'Enter'], 8, 4, 900)).toEqual({ code: 'BAG207', before: 4 })
})

test('a shift between two keys does not break a code', () => {
  expect(typed(new Burst(), ['B', 'Shift', 'A', 'G', '7', 'Enter'], 8, null)?.code).toBe('BAG7')
})
