import { createHash } from 'node:crypto'
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { type CountEvent, canonical, digest, fold, KNOWN_VERSION } from './counting'

interface Case {
  id: string
  title: string
  given: { events: CountEvent[] }
  expect: { lines: Record<string, unknown> }
}

const file = new URL('../../../fixtures/vectors/counting.json', import.meta.url)
const { cases } = JSON.parse(readFileSync(file, 'utf8')) as { cases: Case[] }
const events = cases.map((vector) => vector.given.events)

const lines = (log: CountEvent[]) => Object.fromEntries(fold(log))

describe('the worked cases of counting', () => {
  it.each(cases)('$id: $title', ({ given: input, expect: expected }) => {
    expect(lines(input.events)).toEqual(expected.lines)
  })

  it.each(events)('fold the same backwards and doubled', (...unordered) => {
    const shuffled = [...[...unordered].reverse(), ...unordered]
    expect(fold(shuffled)).toEqual(fold(unordered))
  })
})

function counted(change: Partial<CountEvent>): CountEvent {
  return {
    id: `${change.device ?? 'shelf'}-${change.n ?? 1}`,
    line: 'pin',
    kind: 'set',
    total: 4,
    damaged: 0,
    target: null,
    device: 'shelf',
    n: 1,
    seen: 0,
    author: 'ines',
    seq: null,
    late: false,
    v: KNOWN_VERSION,
    ...change,
  }
}

describe('what this phone does not know', () => {
  it('leaves a kind or a version from later out of the fold', () => {
    const later = [counted({ n: 2, kind: 'halve' }), counted({ n: 3, v: KNOWN_VERSION + 1, total: 9 })]
    expect(lines([counted({}), ...later])).toEqual(lines([counted({})]))
  })

  it('leaves out an undo of a later version too', () => {
    const undo = counted({ n: 2, kind: 'undo', target: 'shelf-1', v: KNOWN_VERSION + 1 })
    expect(lines([counted({}), undo])).toEqual(lines([counted({})]))
  })

  it('folds a note not at all', () => {
    expect(lines([counted({ kind: 'note', total: null, damaged: null })])).toEqual({})
  })
})

it('takes an event as late if any copy is', () => {
  const copies = [counted({ late: true }), counted({ seq: 1 })]
  expect(fold(copies)).toEqual(new Map())
  expect(fold(copies.reverse())).toEqual(new Map())
})

describe('pieces found apart', () => {
  const piece = (device: string, n: number, seen: number, seq: number | null) =>
    counted({ device, n, seen, seq, kind: 'add', total: 1 })

  it('is certain while everyone has pulled the one before', () => {
    const chain = [piece('a', 1, 0, 1), piece('b', 1, 1, 2), piece('c', 1, 2, 3)]
    expect(lines(chain).pin).toEqual({ total: 3, damaged: 0, low: 3, confirm: false })
  })

  it('is not when the first and the third have not met', () => {
    const broken = [piece('a', 1, 0, 2), piece('b', 1, 2, 3), piece('c', 1, 1, 4)]
    expect(lines(broken).pin?.confirm).toBe(true)
  })

  it('is not when both are still on their phones', () => {
    expect(lines([piece('a', 1, 0, null), piece('b', 1, 0, null)]).pin?.confirm).toBe(true)
  })
})

describe('the digest', () => {
  const tally = { total: 6, damaged: 1, low: 6, confirm: false }
  const text = '{"10":[6,1,6,false],"9":[6,1,6,false],"\uff5e":[6,1,6,false],"\u{1f529}":[6,1,6,false]}'

  it('sorts lines as the server does, whatever they look like', () => {
    const tallies = new Map(['\u{1f529}', '9', '\uff5e', '10'].map((line) => [line, tally]))
    expect(canonical(tallies)).toBe(text)
  })

  it('is the SHA-256 of that text in lower-case hex', async () => {
    const tallies = new Map(['9', '10', '\u{1f529}', '\uff5e'].map((line) => [line, tally]))
    expect(await digest(tallies)).toBe(createHash('sha256').update(text, 'utf8').digest('hex'))
  })

  it('has a value for an untouched list', async () => {
    expect(await digest(new Map())).toBe(createHash('sha256').update('{}').digest('hex'))
  })
})

it('folds 2,000 events over 300 lines, and 2,000 over one, in a moment', () => {
  const many = (lineCount: number) =>
    Array.from({ length: 2000 }, (_, at) =>
      counted({
        id: `e${at}`,
        line: `l${at % lineCount}`,
        kind: at % 5 ? 'add' : 'set',
        device: `d${at % 4}`,
        n: at,
        seen: Math.max(0, at - 40),
        seq: at + 1,
      }),
    )
  const started = performance.now()
  expect(fold(many(300)).size).toBe(300)
  expect(fold(many(1)).size).toBe(1)
  expect(performance.now() - started).toBeLessThan(1500)
})
