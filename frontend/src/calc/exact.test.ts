import { describe, expect, it } from 'vitest'
import { Exact } from './exact'

const of = (text: string) => Exact.read(text)

describe('an exact number', () => {
  it.each([
    ['0.1', '0.2', '0.3'],
    ['-0.5', '0.5', '0'],
    ['12345678901234567890.1', '0.9', '12345678901234567891'],
  ])('%s and %s are %s together', (left, other, sum) => {
    expect(of(left).plus(of(other)).plain(3)).toBe(sum)
    expect(of(sum).minus(of(other)).compared(of(left))).toBe(0)
  })

  it.each([
    ['0.5', 0, '1'],
    ['-0.5', 0, '-1'],
    ['0.4999', 0, '0'],
    ['-0.004', 2, '0.00'],
    ['1.005', 2, '1.01'],
    ['284.4', 3, '284.400'],
    ['-12.345', 2, '-12.35'],
  ])('%s to %i decimals is %s: half goes away from zero', (text, places, rounded) => {
    expect(of(text).rounded(places)).toBe(rounded)
  })

  it.each([
    ['2.50', '2.5'],
    ['100', '100'],
    ['-0.0001', '0'],
    ['20.0', '20'],
  ])('%s is written plainly as %s', (text, plain) => {
    expect(of(text).plain(3)).toBe(plain)
  })

  it('divides without losing a third', () => {
    const third = Exact.of(1n).over(Exact.of(3n))
    expect(third.plus(third).plus(third).compared(Exact.of(1n))).toBe(0)
    expect(third.compared(of('0.3333333333'))).toBe(1)
    expect(Exact.of(1n, -3n).numerator).toBe(-1n)
    expect(() => third.over(of('0'))).toThrow('division by zero')
  })

  it.each([
    ['2', 12, '1.414213562373'],
    ['0', 3, '0.000'],
    ['0.0001', 3, '0.010'],
    ['99980001', 0, '9999'],
    ['99980000', 4, '9998.9999'],
  ])('the root of %s to %i decimals is %s', (text, places, root) => {
    expect(of(text).root.rounded(places)).toBe(root)
  })

  it('has a root that is exact where it can be', () => {
    expect(of('4').root.compared(of('2'))).toBe(0)
    expect(of('0.09').root.compared(of('0.3'))).toBe(0)
  })

  it.each([
    ['1.2', 2n],
    ['2', 2n],
    ['-1.2', -1n],
    ['0', 0n],
  ])('the next whole number from %s is %i', (text, next) => {
    expect(of(text).ceiling).toBe(next)
  })

  it.each(['', '1e3', '.5', '5.', '1,5', 'x', '+1', ' 1'])('refuses %j', (text) => {
    expect(() => of(text)).toThrow(`not_exact: ${text}`)
  })
})
