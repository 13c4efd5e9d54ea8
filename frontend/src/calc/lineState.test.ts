import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { lineFigures, lineStanding } from './lineFigures'
import { lineState } from './lineState'

type Strings = Record<string, string | boolean>
interface Case {
  id: string
  title: string
  given: Strings & { tally: Strings | null }
  expect: { states: [string, string][]; figures: string[] }
}

const file = new URL('../../../fixtures/vectors/line-state.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: Case[] }

function worked({ expected, tally, kind, wrong_part, late, sealed }: Case['given']) {
  const counted = tally && {
    total: Number(tally.total),
    damaged: Number(tally.damaged),
    low: Number(tally.low),
    confirm: Boolean(tally.confirm),
  }
  const flags = { wrong_part: Number(wrong_part ?? 0), late: Number(late ?? 0), sealed: Boolean(sealed) }
  const line = lineStanding(Number(expected), counted, String(kind), flags)
  const figures = lineFigures([line])
  const names = ['counted', 'not_counted', 'differ', 'count_again', 'sealed'] as const
  return {
    states: line.states.map(([code, count]) => [code, String(count)]),
    figures: names.filter((name) => figures[name] > 0),
  }
}

describe('the worked cases of line states', () => {
  it.each(cases)('$id: $title', ({ given: input, expect: expected }) => {
    expect(worked(input)).toEqual(expected)
  })
})

it('needs no flags', () => {
  expect(lineState(1, null, 'box')).toEqual([['untouched', 0]])
})
