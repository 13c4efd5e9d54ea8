import { describe, expect, test } from 'vitest'
import { type Run, Runs } from './scanner'

const DIGITS = /\d/

function typed(keys: string[], apart: number, runs = new Runs(), from = 1000): Run | null {
  let at = from
  let run: Run | null = null
  for (const key of keys) {
    run = runs.take({ key, timeStamp: at }, DIGITS)
    at += apart
  }
  return run
}

describe.each([5, 20, 40, 60, 100])('at %i ms a key', (apart) => {
  test.each(['Enter', 'Tab'])('eight or more digits and %s are a code', (end) => {
    expect(typed([...'9520001002731', end], apart)).toMatchObject({ typed: '9520001002731', code: true })
    expect(typed([...'95200010', end], apart)?.code).toBe(true)
  })

  test.each(['BI-GSK-1042', 'BAG207', 'a'])('so is %s, which no key of the screen takes', (text) => {
    expect(typed([...text, 'Enter'], apart)).toMatchObject({ typed: text, code: true })
  })

  test('in a word field only a scanner’s pace is one', () => {
    expect(typed([...'9520001002731', 'Enter'], apart)?.quick).toBe(apart < 35)
  })
})

test.each([
  ['a hand that types a count', [...'1250', 'Enter'], 90],
  ['a hand with seven digits', [...'1234567', 'Enter'], 60],
  ['a hurried hand with two digits', [...'12', 'Enter'], 20],
])('%s is no scanner', (_, keys, apart) => {
  expect(typed(keys, apart)?.code).toBe(false)
})

test('four digits at a scanner’s pace are a code', () => {
  expect(typed([...'4711', 'Enter'], 8)?.code).toBe(true)
})

test('what was typed before a pause is no part of the code', () => {
  const runs = new Runs()
  runs.take({ key: '4', timeStamp: 300 }, DIGITS)
  expect(runs.begins({ key: 'B', timeStamp: 900 })).toBe(true)
  expect(typed([...'BAG207', 'Enter'], 60, runs)?.typed).toBe('BAG207')
})

test('Enter long after the last digit saves and reads nothing', () => {
  const runs = new Runs()
  typed([...'95200010'], 60, runs)
  expect(runs.take({ key: 'Enter', timeStamp: 9000 }, DIGITS)).toBeNull()
})

test('a key that is no character ends the run', () => {
  expect(typed([...'9520', 'Backspace', ...'0010', 'Enter'], 60)).toMatchObject({
    typed: '0010',
    code: false,
  })
})

test('a key that is held down is no scanner', () => {
  const runs = new Runs()
  for (let at = 0; at < 12; at += 1)
    runs.take({ key: '1', timeStamp: 1000 + at * 30, repeat: at > 0 }, DIGITS)
  expect(runs.take({ key: 'Enter', timeStamp: 1400 }, DIGITS)?.code ?? false).toBe(false)
})

test('a shift between two keys does not break a code', () => {
  expect(typed(['B', 'Shift', 'A', 'G', '7', 'Enter'], 8)?.typed).toBe('BAG7')
})
