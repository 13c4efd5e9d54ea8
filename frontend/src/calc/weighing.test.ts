import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { Exact } from './exact'
import { type Weighing, weigh, workings } from './weighing'

interface Case {
  id: string
  title: string
  given: Record<string, string | null>
  expect: Record<string, string | boolean | null>
}

const file = new URL('../../../fixtures/vectors/weigh.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: Case[] }

const weighingOf = ({ sample_count, expected, ...masses }: Case['given']) =>
  ({
    ...masses,
    sample_count: Number(sample_count),
    expected: expected === null ? null : Number(expected),
  }) as Weighing

/** Formats a result like the cases: figures as text, a refusal as its code. */
function weighed(weighing: Weighing): Case['expect'] {
  try {
    const { count, difference, ...figures } = weigh(weighing)
    return { ...figures, count: count?.toString() ?? null, difference: difference?.toString() ?? null }
  } catch (refusal) {
    return { error: (refusal as { code: string }).code }
  }
}

describe('the worked cases of weighing', () => {
  it.each(cases)('$id: $title', ({ given: input, expect: expected }) => {
    expect(weighed(weighingOf(input))).toEqual(expected)
  })
})

const BOLTS: Weighing = {
  sample_count: 20,
  sample_mass: '118.6',
  batch_mass: '287.5',
  tare: '3.1',
  scale_step: '0.1',
  piece_variation: '0.01',
}

describe('the workings of a weighing', () => {
  it('show the figures on the way', () => {
    expect(workings(BOLTS)).toEqual({
      piece: '5.93',
      net: '284.4',
      fromPieces: '0.128',
      fromScale: '0.013',
      threeSd: '0.385',
      off: '0.04',
      steady: true,
      either: 1,
    })
  })

  it('say how many pieces it may be off, either way', () => {
    const rings = { ...BOLTS, sample_count: 10, sample_mass: '4.2', batch_mass: '42', tare: '0' }
    expect(workings({ ...rings, scale_step: '1', piece_variation: '0.03' })).toMatchObject({
      steady: false,
      either: 21,
    })
  })

  it.each([
    [{ sample_count: 9 }, 'sample_too_small: 9'],
    [{ sample_mass: '0' }, 'bad_mass: sample 0'],
    [{ batch_mass: '3' }, 'bad_mass: batch 3 below tare 3.1'],
    [{ batch_mass: '' }, 'not_exact: '],
  ])('%j is refused', (change, message) => {
    expect(() => weigh({ ...BOLTS, ...change })).toThrow(message)
    expect(() => workings({ ...BOLTS, ...change })).toThrow(message)
  })
})

it('takes the tare off exactly: three quarters over are trusted, which a binary float falls short of', () => {
  const masses = { sample_count: 10, sample_mass: '100', batch_mass: '256.02', tare: '48.52' }
  expect(weigh({ ...masses, scale_step: '0.01', piece_variation: '0.005' }).count).toBe(21)
})

/** Returns a generator of numbers below `most`, the same in each run (32-bit linear congruential). */
function numbers(seed: number): (most: number) => number {
  let state = seed
  return (most) => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return (state >>> 8) % most
  }
}

/** Returns a random valid weighing with masses in tenths. */
function anyWeighing(below: (most: number) => number): Weighing {
  const tenths = (most: number, least = 0) => Exact.of(BigInt(least + below(most)), 10n).plain(1)
  return {
    sample_count: 10 + below(90),
    sample_mass: tenths(5000, 1),
    batch_mass: tenths(30000, 200),
    tare: tenths(200),
    scale_step: ['0', '0.01', '0.1', '1'][below(4)] ?? '0',
    piece_variation: Exact.of(BigInt(below(51)), 1000n).plain(3),
    expected: below(3) ? below(300) : null,
  }
}

describe('2,000 weighings at random', () => {
  const below = numbers(4711)
  const all = Array.from({ length: 2000 }, () => anyWeighing(below))

  it('give a count exactly where they are trusted, within a quarter of the estimate', () => {
    for (const weighing of all) {
      const { count, trust, action, estimate, difference } = weigh(weighing)
      expect(workings(weighing).steady || !trust).toBe(true)
      expect([count !== null, action]).toEqual([trust, trust ? null : 'hand_count'])
      expect(difference !== null).toBe(trust && weighing.expected !== null)
      if (count === null) continue
      const off = Exact.read(estimate).minus(Exact.of(BigInt(count))).size
      expect(off.compared(Exact.read('0.255'))).toBe(-1)
    }
    expect(all.filter((weighing) => weigh(weighing).trust).length).toBeGreaterThan(100)
  })

  it('are no different in another unit of mass', () => {
    const thousandfold = (text: string) => Exact.read(text).times(Exact.of(1000n)).plain(3)
    for (const weighing of all) {
      const { sample_mass, batch_mass, scale_step, tare = '0' } = weighing
      const masses = { sample_mass, batch_mass, scale_step, tare }
      const finer = Object.fromEntries(
        Object.entries(masses).map(([name, text]) => [name, thousandfold(text)]),
      )
      expect(weigh({ ...weighing, ...finer })).toEqual(weigh(weighing))
    }
  })

  it('are not trusted for more uneven pieces or a coarser scale, where they were not before', () => {
    for (const weighing of all) {
      const worse = { ...weighing, piece_variation: '0.06', scale_step: '2' }
      expect(weigh(weighing).trust || !weigh(worse).trust).toBe(true)
    }
  })
})
