import '../quoteWords'
import { expect, test } from 'vitest'
import type { Shape } from '../../../../lib/api/types'
import { marginHow, marginNotes } from './margin'

const margin = (more: object = {}) =>
  ({
    percent: '27.1',
    profit: '3331.65',
    floor_percent: null,
    below: false,
    words: [],
    prices: [],
    how: { title: 'Margin', rule: ['Before tax.'], steps: [], result: '27.1 %' },
    ...more,
  }) as unknown as Shape<'MarginOut'>
const two = ['manual: 27.1 %', 'automatic: 27.3 %']

test('the profit of a quote with one price is that of the quote', () => {
  expect(marginNotes(margin(), 2)).toEqual(['3,331.65 before tax'])
})

test('the profit of a quote with several prices says that it is that of the lowest', () => {
  expect(marginNotes(margin({ prices: two }), 2)).toEqual([
    '3,331.65 before tax, at the lowest price',
    'manual: 27.1 %; automatic: 27.3 %',
  ])
})

test('where the margin is not known no profit is told', () => {
  const words = ['Margin not known: Roof tent kit has no cost.', 'Without it 60.1 %.']
  expect(marginNotes(margin({ percent: null, words }), 2)).toEqual(words)
})

test('the margins of more than two prices stand where the margin is explained', () => {
  const prices = [...two, 'another gearbox: 20 %']
  expect(marginNotes(margin({ prices }), 2)).toEqual(['3,331.65 before tax, at the lowest price'])
  expect(marginHow(margin({ prices })).rule).toEqual(['Before tax.', ...prices])
})

test('the floor is shown, with a note if it is missed; then the unknown costs', () => {
  const floor = { floor_percent: '18', words: ['2 items have no cost.'] }
  expect(marginNotes(margin(floor), 2).slice(1)).toEqual(['margin floor: 18 %', '2 items have no cost.'])
  expect(marginNotes(margin({ ...floor, below: true }), 2)[1]).toBe('Below the margin floor of 18 %')
})
