import { expect, it } from 'vitest'
import { type AgreedItem, chosenWith } from './takenOff'

const agreed = (item: string, taken: boolean, source = 'first'): AgreedItem => ({
  source,
  item,
  kind: 'kit',
  title: item,
  hours: '0.0',
  value: '10.00',
  taken,
})
const ITEMS = [agreed('kit:1', true), agreed('kit:2', false), agreed('kit:1', false, 'second')]

it.each([
  [1, true, ['first kit:1', 'first kit:2']],
  [0, false, []],
  [2, true, ['first kit:1', 'second kit:1']],
] as const)('sends all that is chosen once item %i is set to %s', (at, taken, sent) => {
  const item = ITEMS[at]
  if (!item) throw new Error('no such item')
  expect(chosenWith(ITEMS, item, taken).map(({ source, item }) => `${source} ${item}`)).toEqual(sent)
})
