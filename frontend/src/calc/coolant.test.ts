import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { concentrateFor, type Refill, refill } from './coolant'
import { Exact } from './exact'
import { concentrationAt, freezePoint, warmestAndColdest } from './freezing'

interface Case {
  id: string
  title: string
  given: Refill
  expect: Record<string, string | null>
}

const file = new URL('../../../fixtures/vectors/coolant.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: Case[] }

function mixed(input: Refill): object {
  try {
    return refill(input)
  } catch (refusal) {
    return { error: (refusal as { code: string }).code }
  }
}

describe('the worked cases of coolant', () => {
  it.each(cases)('$id: $title', ({ given: input, expect: expected }) => {
    expect(mixed(input)).toMatchObject(expected)
  })
})

it('takes what was drained off exactly', () => {
  const measured = { capacity_before: '0.3', drained: '0.1', residual_concentration: '0.1' }
  expect(refill({ ...measured, target_concentration: '0.35' }).residual).toBe('0.200')
  // In binary floats 8.3005 - 0.3 is less than the half that is rounded up.
  const half = { ...measured, capacity_before: '8.3005', drained: '0.3' }
  expect(refill({ ...half, target_concentration: '0.35' }).residual).toBe('8.001')
  expect(concentrateFor({ ...measured, target_concentration: '0.35' })).toBe('0.085')
})

it('names the figure that cannot be', () => {
  const measured = { capacity_before: '10', drained: '10.001', residual_concentration: '0.4' }
  expect(() => refill({ ...measured, target_concentration: '0.5' })).toThrow('drained_out_of_range: 10.001')
})

describe('freeze points', () => {
  it('are read both ways', () => {
    expect(concentrationAt('-24.8', 'ethylene')).toBe('0.4000')
    expect(freezePoint(Exact.read('0.4'), 'ethylene')).toBe('-24.8')
    expect(concentrationAt('-52', 'ethylene')).toBe('0.6000')
    expect(concentrationAt('-3.4', 'propylene')).toBe('0.1000')
  })

  it('say nothing off the table', () => {
    for (const degrees of ['-3.5', '-52.1'])
      expect(() => concentrationAt(degrees, 'ethylene')).toThrow(`residual_out_of_range: ${degrees}`)
    expect(freezePoint(Exact.read('0.0999'), 'ethylene')).toBe(null)
    expect(freezePoint(Exact.read('0.6001'), 'ethylene')).toBe(null)
    expect(freezePoint(Exact.read('0.5'), null)).toBe(null)
    expect(warmestAndColdest('propylene')).toEqual({ warmest: '-3.4', coldest: '-51.1' })
  })
})
