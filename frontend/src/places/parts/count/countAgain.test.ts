import { expect, test } from 'vitest'
import { fold } from '../../../calc/counting'
import type { LogEvent } from '../../../lib/counts/log'
import parts from '../../../lib/messages/en-GB/parts.ftl'
import { learn } from '../../../lib/text/text'
import { againExplained } from './countAgain'

learn(parts)

function event(author: string, kind: string, total: number, more: Partial<LogEvent> = {}): LogEvent {
  const base = { id: author + kind, line: 'pin', kind, total, damaged: 0, target: null, device: author }
  return { ...base, n: 1, seen: 0, seq: null, author, author_name: `${author}'s name`, ...more } as LogEvent
}

function explained(...events: LogEvent[]) {
  const tally = fold(events).get('pin')
  if (!tally) throw new Error('no tally')
  return againExplained('Pin', events, tally, 'me')
}

test('two counts that knew nothing of each other are both shown, and that neither knew', () => {
  const { steps, result, rule } = explained(event('oda', 'set', 3, { seq: 1 }), event('me', 'set', 4))
  expect(steps.map(({ words, figure }) => [words, figure])).toEqual([
    ["oda's name counted", '3'],
    ['You counted', '4'],
    ["Neither oda's name nor you had the other’s count on the screen", ''],
    ['The lowest it can be', '3'],
    ['The highest it can be', '4'],
  ])
  expect(result).toBe('3\u20134')
  expect(rule).toHaveLength(3)
})

test('who had the other count on the screen is no stranger to it', () => {
  const { steps } = explained(
    event('oda', 'set', 3, { seq: 1 }),
    event('me', 'set', 4, { seen: 1 }),
    event('bram', 'add', 1, { seq: 2 }),
  )
  expect(steps.filter(({ words }) => words.startsWith('Neither')).map(({ words }) => words)).toEqual([
    "Neither oda's name nor bram's name had the other’s count on the screen",
    "Neither you nor bram's name had the other’s count on the screen",
  ])
})

test('damaged ones are shown with the number', () => {
  const { steps } = explained(event('oda', 'set', 3, { seq: 1, damaged: 1 }), event('me', 'set', 3))
  expect(steps[0]?.figure).toBe('3, 1 damaged')
})
