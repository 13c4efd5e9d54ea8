import { expect, test } from 'vitest'
import { clock, dated, day, moment, since } from './dates'

const now = new Date('2026-11-24T12:00:00Z')

test('a moment is worded in the zone of the shop, with its weekday', () => {
  expect(moment('2026-12-11T20:00:00Z', 'America/Chicago', now)).toBe('Fri 11 Dec, 14:00')
  expect(moment('2026-12-11T23:30:00Z', 'Europe/Helsinki', now)).toBe('Sat 12 Dec, 01:30')
  expect(clock('2026-12-11T08:05:00Z', 'UTC')).toBe('08:05')
})

test('a bare date belongs to no zone', () => {
  expect(day('2026-12-11', 'Pacific/Auckland', now)).toBe('Fri 11 Dec')
  expect(day('2026-12-11', 'America/Los_Angeles', now)).toBe('Fri 11 Dec')
})

test('a month is written as its language writes it', () => {
  expect(day('2026-09-01', undefined, now)).toBe('Tue 1 Sept')
})

test('what stays valid over years names its year', () => {
  expect(dated('2026-09-01')).toBe('Tue 1 Sept 2026')
})

test('another year is named', () => {
  expect(day('2027-01-04', undefined, now)).toBe('Mon 4 Jan 2027')
})

test.each([
  ['2026-11-24T11:58:10Z', 'minutes', 1],
  ['2026-11-24T08:00:00Z', 'hours', 4],
  ['2026-11-23T10:00:00Z', 'hours', 26],
  ['2026-11-21T10:00:00Z', 'days', 3],
  ['2026-11-24T12:01:00Z', 'minutes', 0],
])('%s was a while ago', (value, unit, n) => {
  expect(since(value, now)).toEqual({ unit, n })
})
