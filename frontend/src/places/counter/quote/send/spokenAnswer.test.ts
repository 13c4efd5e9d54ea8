import { expect, test } from 'vitest'
import type { Shape } from '../../../../lib/api/types'
import { answerBody, answerKey, type Entered } from './spokenAnswer'

const price = { words: '', gross: '9.00', offer: '', contingencies: [], dates: [], open: true, unfit: null }
const form: Shape<'SpokenFormOut'> = {
  revision: 2,
  digest: 'ab',
  prices: [
    { ...price, value: '0', ready: '2026-12-10 morning', ready_later: '2026-12-24 morning' },
    { ...price, value: '1', ready: '2026-12-11 morning', ready_later: '' },
  ],
  consents: [
    { code: 'road', text: '', required: true, without: '' },
    { code: 'photos', text: '', required: false, without: '' },
  ],
  closing: [],
}
const entered: Entered = {
  answer: 'accepted',
  way: 'phone',
  phone: ' 01632 960 417 ',
  name: ' Maren Oldacre ',
  when: '',
  price: '1',
  reason: 'too dear',
  read: true,
  consents: { photos: true, road: false },
}

test('an acceptance names the version, price and half day that were read out, and the consents given', () => {
  expect(answerBody(form, entered)).toEqual({
    revision: 2,
    digest: 'ab',
    answer: 'accepted',
    way: 'phone',
    phone: '01632 960 417',
    name: 'Maren Oldacre',
    said_at: null,
    price: '1',
    ready: '2026-12-11 morning',
    ready_later: '',
    consents: ['photos'],
    read_out: true,
    reason: '',
  })
})

test('at the counter no number was called, and a reason goes with a no', () => {
  const body = answerBody(form, { ...entered, answer: 'declined', way: 'counter' })
  expect([body.phone, body.reason]).toEqual(['', 'too dear'])
})

test('what was said earlier has its moment', () => {
  const when = '2026-11-26T17:30'
  expect(answerBody(form, { ...entered, when }).said_at).toBe(new Date(when).toISOString())
})

test('where there is one price none is named', () => {
  const single = { ...form, prices: form.prices.slice(0, 1) }
  expect(answerBody(single, { ...entered, price: '' })).toMatchObject({
    price: '',
    ready: '2026-12-10 morning',
  })
})

test('a workshop that went ahead within the ceiling was not given an answer', () => {
  expect(answerKey({ answer: 'accepted', way: 'ceiling' })).toBe('quote.answer.ceiling')
  expect(answerKey({ answer: 'accepted', way: 'counter' })).toBe('quote.answer.accepted')
  expect(answerKey({ answer: 'declined', way: 'link' })).toBe('quote.answer.declined')
})
