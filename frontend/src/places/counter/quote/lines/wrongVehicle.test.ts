import { expect, test } from 'vitest'
import type { Quote } from '../draft.svelte'
import { against } from './wrongVehicle'

const notices: Quote['notices'] = [
  { code: 'kit_not_for_vehicle', about: 'a', words: 'Kit is not for this vehicle.' },
  { code: 'kit_fit_unknown', about: 'b', words: 'Nobody has stated it.' },
  { code: 'kit_not_for_vehicle', about: 'c', words: 'Kit is not for this vehicle.' },
]

test('before sending only the objections to a kit are repeated, each sentence once', () => {
  expect(against({ notices })).toEqual(['Kit is not for this vehicle.'])
})

test('a line has what speaks against its own kit', () => {
  expect(against({ notices }, 'c')).toEqual(['Kit is not for this vehicle.'])
  expect(against({ notices }, 'b')).toEqual([])
})
