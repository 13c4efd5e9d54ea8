import { expect, test } from 'vitest'
import { learn } from '../../lib/text'
import { bay } from '../../lib/words/bay'
import { hoursExplained } from './hours'
import type { Step } from './work'

learn(bay)

const step = (why: string[]) => ({ title: 'Bumper off', kits: ['A', 'C'], hours: '2.60', why }) as Step

test('a step with reasons for its hours says the rule, each reason once, and the hours', () => {
  const found = hoursExplained(step(['once for two kits: longest is 2.4 h', '\u00d7 1.1 for corrosion']))
  expect(found?.steps).toEqual([
    { words: 'For kits', figure: 'A, C' },
    { words: 'once for two kits: longest is 2.4 h', figure: '' },
    { words: '\u00d7 1.1 for corrosion', figure: '' },
  ])
  expect([found?.title, found?.result, found?.rule.length]).toEqual(['Bumper off', '2.6 h', 3])
})

test('a step with just the hours of its kit explains nothing', () => {
  expect(hoursExplained(step([]))).toBeNull()
})
