import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, it, test } from 'vitest'
import parts from '../../../lib/messages/en-GB/parts.ftl'
import { learn } from '../../../lib/text/text'
import { type Figure, OnScale } from './bagOnScale.svelte'
import { faultWords, verdictWords, weighedExplained } from './weighingWords'

learn(parts)

let bags = 0
let bag: OnScale
const opened = async (part = `BLT-${++bags}`, expected = 48, shop = 'saltmarsh') => {
  const scale = new OnScale(shop, part, expected)
  await scale.open()
  return scale
}
function type(figure: Figure, keys: string, into = bag) {
  into.choose(figure)
  for (const key of keys) into.press(key)
}
/** Twenty bolts of 118.6 g as the sample. */
function sample(into = bag) {
  type('count', '20', into)
  type('sample', '118.6', into)
}
function bolts(on = bag) {
  on.step = '0.1'
  on.kind = 'fasteners'
}
const verdict = () => bag.result && verdictWords(bag.result)
const wrong = () => bag.fault && faultWords(bag.fault, bag)

beforeEach(async () => {
  bag = await opened()
})

describe('a bag on the scale', () => {
  it('asks for one thing after another, and weighs once all is there', () => {
    bag.step = bag.kind = ''
    const prompts = [bag.missing]
    for (const [figure, keys] of [
      ['count', '20'],
      ['sample', '118.6'],
      ['all', '287.5'],
    ] as const) {
      type(figure, keys)
      prompts.push(bag.missing)
    }
    bag.step = '0.1'
    prompts.push(bag.missing)
    expect(prompts).toEqual(['count', 'sample', 'all', 'step', 'kind'])
    expect(bag.result).toBe(null)
    bag.kind = 'fasteners'
    type('tare', '3.1')
    expect(bag.result).toMatchObject({ count: 48, estimate: '47.96', sd: '0.128' })
  })

  it('says that all are here, how many are short, and how many are over', () => {
    bolts()
    sample()
    type('all', '284.4')
    expect(verdict()).toEqual({
      says: '48 pieces: all here.',
      why: 'Reliable to ± 0.385 of a piece.',
    })
    type('all', '272.6')
    expect(verdict()?.says).toBe('46 pieces: 2 short.')
    type('all', '296.5')
    expect(verdict()?.says).toBe('50 pieces: 2 over.')
  })

  it('gives no count that cannot be trusted, and says how far off it may be', () => {
    bolts()
    sample()
    type('all', '1186')
    expect(bag.result?.count).toBe(null)
    expect(verdict()?.says).toBe('The scale is not accurate enough: ± 2 pieces. Count by hand.')
    type('all', '287.6')
    expect(bag.result?.count).toBe(null)
    expect(verdict()?.says).toBe(
      'The scale is not accurate enough: 48.5 is between two pieces. Count by hand.',
    )
  })
})

describe('a figure that cannot be', () => {
  beforeEach(() => bolts())

  it('is shown when the person goes on, not while it is typed', () => {
    type('count', '9')
    expect(wrong()).toBe(null)
    bag.goOn('sample')
    expect([bag.on, wrong()]).toEqual([
      'count',
      '9 pieces are too small a sample. Count at least 10 into it.',
    ])
    type('count', '10')
    bag.goOn('sample')
    expect([bag.on, wrong()]).toEqual(['sample', null])
  })

  it('keeps the bag from being weighed, and says what to do', () => {
    sample()
    type('all', '2')
    type('tare', '3.1')
    expect(wrong()).toMatch('2 g, is lighter than the tare, 3.1 g. Weigh it with the bag')
    expect(bag.result).toBe(null)
    type('sample', '0')
    type('tare', '')
    bag.choose('all')
    expect(wrong()).toMatch('A sample of 0 g is not possible.')
    expect(bag.result).toBe(null)
  })

  it('is one that the scale does not show', () => {
    bag.step = '0.5'
    sample()
    type('all', '284.5')
    expect(wrong()).toBe(
      'A scale with steps of 0.5 g does not show 118.6 g. Type what it shows, or choose its step.',
    )
    expect(bag.result).toBe(null)
    bag.step = '0.1'
    expect([wrong(), bag.result?.count]).toEqual([null, 48])
  })
})

describe('what this phone remembers', () => {
  it('is the sample of the part and the scale: the next bag needs its mass alone', async () => {
    bolts()
    sample()
    type('all', '284.4')
    await bag.keep('2026-11-25T08:00:00Z')
    const next = await opened(bag.part, 20)
    expect([next.on, next.typed.count, next.typed.sample, next.step, next.kind]).toEqual([
      'all',
      '20',
      '118.6',
      '0.1',
      'fasteners',
    ])
    type('all', '118.6', next)
    expect(next.result).toMatchObject({ count: 20, difference: 0 })
  })

  it('is no sample of another part, nor of another workshop: its scale stays, its kind is asked for', async () => {
    bolts()
    sample()
    await bag.keep()
    for (const other of [await opened(), await opened(bag.part, 48, 'copperfell'), await opened('')])
      expect([other.on, other.typed.count, other.step, other.kind]).toEqual(['count', '', '0.1', ''])
  })

  it('keeps the coarser scale of the two: a sample weighed on it is no better for a finer one', async () => {
    bag.step = '1'
    bag.kind = 'turned'
    type('count', '20')
    type('sample', '119')
    await bag.keep()
    const next = await opened(bag.part)
    next.step = '0.1'
    type('all', '284.4', next)
    expect(next.weighing?.scale_step).toBe('1')
    type('sample', '118.6', next)
    expect([next.kept, next.weighing?.scale_step]).toEqual([null, '0.1'])
  })

  it('does not overwrite what a person is typing', async () => {
    bolts()
    sample()
    await bag.keep()
    const next = new OnScale('saltmarsh', bag.part, 48)
    const open = next.open()
    type('count', '30', next)
    await open
    expect([next.typed.count, next.typed.sample, next.kept]).toEqual(['30', '', null])
  })
})

test('a scanner is not a scale: its keys are undone', () => {
  type('count', '20')
  for (const key of '4711') bag.press(key)
  bag.set('20')
  expect(bag.typed.count).toBe('20')
})

test('the weighed count is explained with its own numbers', () => {
  bolts()
  sample()
  type('all', '287.5')
  type('tare', '3.1')
  const { weighing, result } = bag
  if (!weighing || !result) throw new Error('nothing weighed')
  const { title, rule, steps, result: comes } = weighedExplained('Bolt', weighing, result)
  expect([title, rule.length, comes]).toEqual(['Bolt', 3, '48 pieces'])
  expect(steps.map(({ words, figure }) => [words, figure])).toEqual([
    ['One piece: 118.6 g ÷ 20', '5.93 g'],
    ['All, without the tare: 287.5 g − 3.1 g', '284.4 g'],
    ['Pieces: 284.4 g ÷ 5.93 g', '47.96'],
    ['Error from the pieces: 1 % of √(47.96 + 47.96² ÷ 20)', '0.128'],
    ['Error from the scale: 0.1 g ÷ √12 ÷ 5.93 g × √(1 + (47.96 ÷ 20)²)', '0.013'],
    ['Standard deviation: √(0.128² + 0.013²)', '0.128'],
    ['Three of them; at most 0.5', '0.385'],
    ['Distance from the nearest whole number; at most 0.25', '0.04'],
  ])
})
