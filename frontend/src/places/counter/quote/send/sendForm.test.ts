import { render } from 'svelte/server'
import { expect, test } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import QuoteTotalsPanel from '../prices/QuoteTotalsPanel.svelte'
import SendForm from './SendForm.svelte'

// Tests the end of a draft: everything still to settle, and figures that a change has moved.
learn(words)

const settle = (place: string, words: string, stops: boolean) => ({ place, words, stops })
const form = (...to_settle: object[]) => rendered(to_settle)
const rendered = (to_settle: object[], { busy = false, open = false } = {}) =>
  render(SendForm, {
    props: {
      quote: { customer: null, notices: [], stops: [], to_settle } as never,
      sending: { refusalOf: () => null, busy } as never,
      computing: false,
      below: false,
      onplace() {},
      onblocked() {},
      open,
    },
  }).body

test('each thing to settle is a button, what stops the quote under its own heading', () => {
  const body = form(
    settle('customer', 'Choose the customer.', true),
    settle('notices', 'No wear sensor.', false),
  )
  expect(body).toMatch(/Before the link can be created.*<button[^>]*>Choose the customer\.<\/button>/s)
  expect(body).toMatch(/Please check.*<button[^>]*>No wear sensor\.<\/button>/s)
  expect(form(settle('notices', 'No wear sensor.', false))).toMatch(/>Create the link|Please check/)
  expect(form()).not.toContain('Please check')
})

test('a quote that is being sent says so', () => {
  const words = 'Prices, page and PDF are being made.'
  expect(rendered([], { busy: true, open: true })).toContain(words)
  expect(rendered([], { open: true })).not.toContain(words)
})

const quote = {
  exponent: 2,
  totals: { gross: '4000.00', prices_include_tax: true, taxes: [] },
  undecided: null,
  labour: { hours: '12.4', why: [] },
  promise: null,
  no_promise: null,
  valid_until: null,
  validity: { days: 14, why: null },
  mark: null,
}
const totalsPanel = (editable: boolean) =>
  render(QuoteTotalsPanel, {
    props: {
      draft: { moved: { gross: '3900.00', hours: null, ready: null, says: 'Added: kit' } } as never,
      quote: { ...quote, editable } as never,
      margin: undefined,
      computing: false,
      onready() {},
      children: (() => {}) as never,
    },
    context: new Map(),
  }).body

test('a figure says what it was on a draft, and no more once it is sent', () => {
  expect(totalsPanel(true)).toContain('Was 3,900.00. Added: kit')
  expect(totalsPanel(false)).not.toContain('Was')
})
