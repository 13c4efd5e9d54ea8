import '../quoteWords'
import { render } from 'svelte/server'
import { expect, test } from 'vitest'
import PossiblePrices from './PossiblePrices.svelte'

// Tests the number of prices above a range without a vehicle, which the bar and the totals panel say too.
const price = (gross: string, unfit: string | null) => ({
  gross,
  unfit,
  words: gross,
  hours: '45.4',
  ready: null,
  stated: [],
  nameable: true,
})

test('counts the prices that can be accepted, without those of a kit that does not fit', () => {
  const prices = [price('10.00', null), price('20.00', null), price('30.00', null), price('9.00', 'A kit')]
  const quote = {
    rules: { newer: null },
    range: { words: 'about 10 to 30' },
    undecided: { title: 'Not recorded', words: '', attributes: [], prices },
    exponent: 2,
    totals: { gross: '10.00' },
  }
  const text = render(PossiblePrices, { props: { draft: {}, quote } as never })
    .body.replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
  expect(text).toContain('3 Prices 10.00 to 30.00')
})
