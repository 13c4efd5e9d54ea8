import { expect, test } from 'vitest'
import type { Quote } from '../draft.svelte'
import { noticesHere } from './notices'

const coolant = { code: 'capacity_unknown', words: 'The coolant capacity is not known.', about: null }
const wheels = { code: 'check_wheels', words: 'Check the wheels.', about: null }

function quote(fields: object): Quote {
  return { notices: [coolant, wheels, wheels], stops: [], to_settle: [], ...fields } as unknown as Quote
}

test('what is settled elsewhere is said there only, and everything else once', () => {
  const to_settle = [
    { place: 'vehicle_facts', words: coolant.words, stops: false },
    { place: 'notices', words: wheels.words, stops: false },
  ]
  expect(noticesHere(quote({ to_settle }))).toEqual([wheels])
})

test('what keeps a draft from being sent is said at the button only', () => {
  expect(noticesHere(quote({ stops: [wheels.words] }))).toEqual([coolant])
})

test('a sent quote has nothing to settle and keeps its notices', () => {
  expect(noticesHere(quote({}))).toEqual([coolant, wheels])
})
