import 'fake-indexeddb/auto'
import { expect, test, vi } from 'vitest'
import { recall } from '../../../lib/device/database'
import { setLanguage } from '../../../lib/text/language'
import { after, type Figure, Mixing } from './mixing.svelte'

const CIRCUIT = {
  name: 'coolant',
  title: 'Coolant',
  concentrate: 'Coolant concentrate',
  chemistry: 'ethylene glycol',
  capacity: '14.2',
  capacity_words: 'as the quote knew it',
  added: '0.4',
  after: '14.6',
  target: '50',
  protects: '-37.1',
  protection_words: '',
  drained: '9.23',
  residual: '42',
  scales: ['percent', 'celsius'] as ('percent' | 'celsius')[],
  glycol: 'ethylene' as const,
  premix: '50',
  mix_words: {
    fill: 'Concentrate {concentrate}, water {water}',
    cannot: 'This cannot be computed',
    drained_too_much: 'The system holds {capacity} L. Enter 0 to {capacity}.',
    capacity_unknown: 'Nobody has stated what the {circuit} circuit holds.',
  },
}
let jobs = 0
const mixing = (job = `job-${++jobs}`, change = {}) => new Mixing(job, { ...CIRCUIT, ...change })
const type = (to: Mixing, figure: Figure, keys: string) => {
  for (const key of keys) to.press(figure, key)
}

test.each<[string, Figure, string]>([
  ['5.2', 'drained', '5.2'],
  ['5,2', 'drained', '5.2'],
  ['.5', 'drained', '0.5'],
  ['05', 'drained', '5'],
  ['5..2.1', 'drained', '5.21'],
  ['12345', 'drained', '123'],
  ['5.12345', 'drained', '5.123'],
  ['38.555', 'percent', '38.55'],
  ['3x8', 'percent', '38'],
])('typing %s as %s reads %s', (keys, figure, reads) => {
  expect([...keys].reduce((text, key) => after(text, key, figure), '')).toBe(reads)
})

test('Backspace removes the last key', () => {
  expect(after('5.2', 'Backspace', 'drained')).toBe('5.')
  expect(after('', 'Backspace', 'drained')).toBe('')
})

test('before any measurement the mix uses assumed figures', () => {
  const open = mixing()
  expect(open.mix?.words).toBe('Concentrate 5.2, water 4.4')
  expect(open.isAssumed).toBe(true)
})

test('its sentences have the decimal sign of the language, and its values a point', () => {
  setLanguage('de')
  const { mix } = mixing()
  setLanguage()
  expect([mix?.words, mix?.concentrate]).toEqual(['Concentrate 5,2, water 4,4', '5.2'])
})

test('what is typed is mixed at once, and degrees are below zero', () => {
  const open = mixing()
  type(open, 'drained', '9.6')
  expect(open.mix?.words).toBe('Concentrate 5.4, water 4.6')
  type(open, 'percent', '40')
  expect(open.mix?.concentrate).toBe('5.5')
  open.read('celsius')
  type(open, 'celsius', '24.8')
  expect(open.measured).toEqual({ drained: '9.6', reading: '-24.8', scale: 'celsius' })
  expect(open.mix?.concentrate).toBe('5.5')
})

test('a figure that cannot be has no mix, and says at the field what to enter', () => {
  const open = mixing()
  type(open, 'drained', '99')
  expect(open.mix).toBe(null)
  expect(open.problem).toMatchObject({
    title: 'This cannot be computed',
    errors: [{ pointer: '/drained', detail: 'The system holds 14.2 L. Enter 0 to 14.2.' }],
  })
})

test('a capacity that somebody corrects counts at once', () => {
  const open = mixing()
  type(open, 'drained', '5')
  open.circuit = { ...CIRCUIT, capacity: '9.8' }
  expect(open.mix?.after).toBe('10.2')
})

test('what was typed is there again', async () => {
  const open = mixing('kept')
  type(open, 'drained', '5.2')
  open.read('celsius')
  type(open, 'celsius', '20')
  const again = mixing('kept')
  await again.open()
  expect(again.typed).toEqual({ drained: '5.2', celsius: '20' })
  expect(again.scale).toBe('celsius')
  expect(again.mix).toEqual(open.mix)
})

test('what was typed for one job is not there for another, nor for another circuit of the job', async () => {
  type(mixing('one job'), 'drained', '9.6')
  await vi.waitFor(async () => expect(await recall('coolant one job coolant')).toBeDefined())
  for (const other of [mixing('another job'), mixing('one job', { name: 'charge coolant' })]) {
    await other.open()
    expect(other.typed).toEqual({})
  }
})

test('a circuit that nobody has measured is not mixed until litres stand there, then says what is missing', () => {
  const open = mixing('bare', { capacity: null, drained: null })
  expect([open.mix, open.problem]).toEqual([null, null])
  type(open, 'drained', '5')
  expect(open.mix).toBe(null)
  expect(open.problem?.detail).toBe('Nobody has stated what the coolant circuit holds.')
})

test('a copy without the words of a mix waits for the fresh one', () => {
  const open = mixing('old', { mix_words: undefined })
  expect([open.mix, open.problem]).toEqual([null, null])
})

test('the first key after a figure was chosen replaces it, a point too; Erase still edits', async () => {
  const open = mixing()
  type(open, 'drained', '20')
  open.begin()
  type(open, 'drained', '70')
  expect(open.typed.drained).toBe('70')
  open.begin()
  open.press('drained', 'Backspace')
  type(open, 'drained', '3')
  expect(open.typed.drained).toBe('73')
  open.begin()
  type(open, 'drained', '.5')
  expect(open.typed.drained).toBe('0.5')
})

test('what a device kept is replaced by the first key, and so is a reading whose scale was turned', async () => {
  const open = mixing('turned')
  type(open, 'percent', '20')
  const again = mixing('turned')
  await again.open()
  type(again, 'percent', '7')
  expect(again.typed.percent).toBe('7')
  again.read('celsius')
  type(again, 'celsius', '24')
  again.read('percent')
  type(again, 'percent', '38')
  expect(again.typed).toEqual({ percent: '38', celsius: '24' })
})

test('the mix is assumed until both figures are typed', async () => {
  const open = mixing()
  expect(open.isAssumed).toBe(true)
  type(open, 'drained', '6.4')
  expect(open.isAssumed).toBe(true)
  type(open, 'percent', '38')
  expect(open.isAssumed).toBe(false)
  open.read('celsius')
  expect(open.isAssumed).toBe(true)
})
