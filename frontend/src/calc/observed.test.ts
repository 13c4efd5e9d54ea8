import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { flags, type Observation } from './observed'

let n = 0
function observation(change: Partial<Observation>): Observation {
  n += 1
  return {
    id: `e${n}`,
    line: 'pin',
    kind: 'set',
    total: 4,
    damaged: 0,
    target: null,
    device: 'shelf',
    n,
    seen: 0,
    author: 'ines',
    seq: n,
    late: false,
    ...change,
  }
}
const note = (what: string, change: Partial<Observation> = {}) =>
  observation({ kind: 'note', total: null, damaged: null, note: { what }, ...change })
const of = (...events: Observation[]) => flags(events, new Map([['pin', 4]])).get('pin')

it('numbers the wrong parts that were noted', () => {
  expect(of(note('wrong_part'), note('wrong_part'), note('damage'))).toMatchObject({ wrong_part: 2 })
})

it('lets its author undo a note, and nobody else', () => {
  const noted = note('wrong_part')
  const undo = observation({ kind: 'undo', total: null, damaged: null, target: noted.id })
  expect(of(noted, undo)).toBeUndefined()
  expect(of(noted, { ...undo, author: 'oda' })?.wrong_part).toBe(1)
  expect(of(noted, { ...undo, late: true })?.wrong_part).toBe(1)
})

it('keeps the last word on a seal', () => {
  const sealed = observation({ how: 'sealed' })
  const counted = observation({ how: 'counted' })
  expect(of(sealed)?.sealed).toBe(true)
  expect(of(counted, sealed)?.sealed).toBe(false)
  expect(of(sealed, observation({ how: 'counted', seq: null }))?.sealed).toBe(false)
})

it('numbers what came after closing and lets it say nothing else', () => {
  expect(of(observation({ late: true, how: 'sealed' }), observation({ late: true }))).toEqual({
    wrong_part: 0,
    late: 2,
    sealed: false,
  })
})

it('leaves out what a later version says', () => {
  expect(of(note('wrong_part', { v: 2 }))).toBeUndefined()
})

interface Case {
  id: string
  title: string
  given: { expected: Record<string, string>; events: Observation[] }
  expect: { lines: Record<string, unknown> }
}
const file = new URL('../../../fixtures/vectors/line-notes.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: Case[] }

describe('the worked cases of notes', () => {
  it.each(cases)('$id: $title', ({ given: input, expect: expected }) => {
    const pieces = Object.entries(input.expected).map(([line, n]) => [line, Number(n)] as const)
    const lines = [...flags(input.events, new Map(pieces))].map(([line, { wrong_part, late, sealed }]) => [
      line,
      { wrong_part: String(wrong_part), late: String(late), sealed },
    ])
    expect(Object.fromEntries(lines)).toEqual(expected.lines)
  })
})
