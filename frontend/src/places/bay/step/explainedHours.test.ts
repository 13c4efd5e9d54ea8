import { expect, test } from 'vitest'
import bay from '../../../lib/messages/en-GB/bay.ftl'
import { learn } from '../../../lib/text/text'
import { hoursExplained, totalExplained } from './explainedHours'
import type { Step } from './stages'

learn(bay)

const step = (why: string[]) => ({ title: 'Bumper off', kits: ['A', 'C'], hours: '2.60', why }) as Step

test('a step with reasons for its hours says the rule, each reason once, and the hours', () => {
  const explanation = hoursExplained(
    step(['once for two kits: longest is 2.4 h', '+10 % for corroded fasteners']),
  )
  expect(explanation?.steps).toEqual([
    { words: 'For kits', figure: 'A, C' },
    { words: 'once for two kits: longest is 2.4 h', figure: '' },
    { words: '+10 % for corroded fasteners', figure: '' },
  ])
  expect([explanation?.title, explanation?.result, explanation?.rule.length]).toEqual([
    'Bumper off',
    '2.6 h',
    3,
  ])
})

test('the worked numbers that were kept go before the reasons', () => {
  const how = {
    title: 'Bumper off',
    rule: ['once'],
    steps: [{ words: 'A asks', figure: '2.6 h' }],
    result: '2.6 h',
  }
  expect(hoursExplained({ ...step(['once for two kits']), how })).toEqual(how)
  expect(hoursExplained({ ...step([]), how })).toEqual(how)
})

test('the hours of the job are those of its steps, without what takes none of its own', () => {
  const operations = [
    { ...step([]), position: 1 },
    { ...step([]), position: 2, title: 'Inside it', hours: '0.0' },
    { ...step([]), position: 3, title: 'Wiring', hours: '1.5' },
  ]
  const explanation = totalExplained({ hours: '4.1', operations })
  expect(explanation.steps).toEqual([
    { words: 'Step 1, Bumper off', figure: '2.6 h' },
    { words: 'Step 3, Wiring', figure: '1.5 h' },
  ])
  expect(explanation.result).toBe('4.1 h')
})

test('a step with just the hours of its kit explains nothing', () => {
  expect(hoursExplained(step([]))).toBeNull()
})
