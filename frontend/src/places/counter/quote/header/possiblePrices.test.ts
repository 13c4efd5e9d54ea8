import '../quoteWords'
import { expect, test } from 'vitest'
import {
  barLines,
  commonReady,
  openWords,
  type PossiblePrice,
  priceLines,
  readyLines,
} from './possiblePrices'
import { attributesWith } from './recordedAttributes'

const price = (words: string, gross: string, hours: string, more: object = {}): PossiblePrice => ({
  stated: [{ attribute: 'transmission', value: words }],
  words,
  gross,
  hours,
  unfit: null,
  nameable: true,
  ready: null,
  ...more,
})
const open = (...prices: PossiblePrice[]) =>
  ({
    totals: { gross: '5569.56' },
    exponent: 2,
    undecided: prices.length
      ? { title: 'Not recorded: gearbox', words: '', attributes: [], hours: '', prices }
      : null,
  }) as unknown as Parameters<typeof priceLines>[0]
const both = [price('manual', '5569.56', '15.6'), price('automatic', '7061.71', '24.4')] as const

test('there is a line for each price, and the total alone where nothing is open', () => {
  expect(priceLines(open(...both))).toEqual([
    { figure: '5,569.56', words: 'manual' },
    { figure: '7,061.71', words: 'automatic' },
  ])
  expect(priceLines(open())).toEqual([{ figure: '5,569.56', words: '' }])
})

test('a price under which a kit does not fit is not one of the totals', () => {
  const unfit = price('automatic', '7061.71', '24.4', { unfit: 'Does not fit: Towing kit' })
  expect(priceLines(open(both[0], unfit))).toEqual([{ figure: '5,569.56', words: 'manual' }])
})

test('on a phone more than two prices are the lowest and the highest of them', () => {
  expect(barLines(open(...both))).toEqual(priceLines(open(...both)))
  const more = [price('manual, used', '10099.10', '16'), price('none', '999.95', '3'), ...both]
  expect(barLines(open(...more))).toEqual([
    { figure: '999.95', words: 'lowest of 4 prices' },
    { figure: '10,099.10', words: 'highest' },
  ])
})

test('prices that are too many to list are a range, never the total of one of them', () => {
  const many = { title: 'Model not known', words: '', attributes: [], hours: '', prices: [] }
  const quote = { ...open(), undecided: many, range: { low: '11000', high: '14000' } }
  const priced = quote as unknown as Parameters<typeof priceLines>[0]
  expect(priceLines(priced)).toEqual([{ figure: '11,000 to 14,000', words: '' }])
  expect(barLines(priced)).toEqual([{ figure: '11,000 to 14,000', words: '' }])
})

test('recording a price adds its values to those of the vehicle, where they have a name', () => {
  expect(attributesWith({ model: 'T35' }, both[1])).toEqual({ model: 'T35', transmission: 'automatic' })
  const another = price('another gearbox', '1', '1', { nameable: false })
  expect(attributesWith({}, another)).toBeNull()
})

test('under a total with too many prices to list stands the range', () => {
  const quote = (prices: PossiblePrice[], words: string | null) =>
    ({ undecided: { title: 'Not recorded: gearbox', prices }, range: words && { words } }) as never
  expect(openWords(quote([], 'about 6,800 to 7,800'))).toEqual(['about 6,800 to 7,800'])
  expect(openWords(quote([...both], 'about 5,500 to 7,100'))).toEqual([])
  expect(openWords(quote([], null))).toEqual(['Not recorded: gearbox'])
})

test('a half day that all prices share is shown once, and not if one differs or has none', () => {
  const readies = (...days: (string | null)[]) => days.map((ready) => ({ ready }))
  expect(commonReady(readies('Wed 16 Dec', 'Wed 16 Dec'))).toBe('Wed 16 Dec')
  expect(commonReady(readies('Wed 16 Dec', 'Thu 17 Dec'))).toBe(null)
  expect(commonReady(readies('Wed 16 Dec', null))).toBe(null)
  expect(commonReady(readies(null, null))).toBe(null)
  expect(commonReady(readies('Wed 16 Dec'))).toBe(null)
  expect(commonReady([])).toBe(null)
})

test('beside the date of the first price stand those of the others, unless all are the same', () => {
  const of = (...days: (string | null)[]) =>
    readyLines({
      undecided: {
        prices: days.map((ready, at) => ({ words: `gearbox ${at}`, ready, unfit: null })),
      } as never,
    })
  expect(of('Tue 8 Dec', 'Wed 9 Dec')).toEqual(['gearbox 0: Tue 8 Dec', 'gearbox 1: Wed 9 Dec'])
  expect(of('Tue 8 Dec', null)).toEqual(['gearbox 0: Tue 8 Dec', 'gearbox 1: no date yet'])
  expect(of('Tue 8 Dec', 'Tue 8 Dec')).toEqual([])
  expect(readyLines({ undecided: null })).toEqual([])
})
