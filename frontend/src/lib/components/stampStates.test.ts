import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { t } from '../text/text'
import { isState, jobState, STATES } from './stampStates'

const shell = readFileSync('index.html', 'utf8')
const all = Object.entries(STATES)

test.each(all)('%s has a word, a weight and a shape that the shell draws', (_, look) => {
  expect(t(look.word)).toMatch(/^[a-z]/)
  expect(['none', 'plain', 'act']).toContain(look.weight)
  expect(shell).toContain(`<symbol id="m-${look.shape}"`)
})

test('no two states share a shape and a weight, nor a word', () => {
  expect(new Set(all.map(([, look]) => `${look.shape} ${look.weight}`)).size).toBe(all.length)
  expect(new Set(all.map(([, look]) => t(look.word))).size).toBe(all.length)
})

test('only states of the table are states', () => {
  expect(isState('short')).toBe(true)
  expect(isState('counting')).toBe(false)
  expect(isState('toString')).toBe(false)
})

test.each([
  ['accepted', 'accepted'],
  ['waiting', 'waiting_for_parts'],
  ['ready', 'ready'],
  ['in_bay', 'in_the_bay'],
  ['in_checks', 'in_checks'],
  ['handed_over', 'handed_over'],
  ['called_off', 'called_off'],
  ['unheard of', undefined],
])('a job that is %s has the stamp %s', (state, stamp) => {
  expect(jobState(state)).toBe(stamp)
})
