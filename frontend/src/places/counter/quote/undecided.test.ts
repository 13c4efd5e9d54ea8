import { expect, test } from 'vitest'
import { attributesWith, hoursBetween, type PossiblePrice, priceLines } from './undecided'

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
    labour: { hours: '15.6' },
    exponent: 2,
    undecided: prices.length ? { title: 'Gearbox not known', words: '', attributes: [], prices } : null,
  }) as unknown as Parameters<typeof priceLines>[0] & Parameters<typeof hoursBetween>[0]
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

test('the hours are said from the least to the most', () => {
  const between = (low: string, high: string) => `${low} to ${high}`
  expect(hoursBetween(open(...both), between)).toBe('15.6 to 24.4')
  expect(hoursBetween(open(price('a', '1', '9.5'), price('b', '2', '10.0')), between)).toBe('9.5 to 10.0')
  expect(hoursBetween(open(both[0], both[0]), between)).toBe('15.6')
  expect(hoursBetween(open(), between)).toBe('15.6')
})

test('recording a price adds its values to those of the vehicle, where they have a name', () => {
  expect(attributesWith({ model: 'T35' }, both[1])).toEqual({ model: 'T35', transmission: 'automatic' })
  const another = price('another gearbox', '1', '1', { nameable: false })
  expect(attributesWith({}, another)).toBeNull()
})
