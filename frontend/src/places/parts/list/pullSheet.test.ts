import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, test, vi } from 'vitest'

vi.stubGlobal('document', { cookie: '', visibilityState: 'visible' })
const { db } = await import('../../../lib/device/database')
const { PullSheet } = await import('./pullSheet.svelte')
type Line = import('./groups').Line

const ME = 'member-ines'

function line(id: string, change: Partial<Line> = {}): Line {
  const what = { id, position: 1, kind: 'box', kit: 'A', number: id, title: id, quantity: '4', pieces: 4 }
  return { ...what, unit: 'pc', carton: '1', bag: '1-01', operation: 'OP', codes: [], ...change } as Line
}

async function laid(...lines: Line[]) {
  const sheet = new PullSheet({ shop: 'fell', list: 'list-1', author: ME })
  await sheet.log.open()
  sheet.lay(lines)
  const row = (id: string) => {
    const row = sheet.rows.find((row) => row.line.id === id)
    if (!row) throw new Error(`no line ${id}`)
    return row
  }
  return { sheet, row }
}
const set = (id: string, total: number, damaged = 0) => ({ line: id, kind: 'set' as const, total, damaged })

beforeEach(async () => {
  for (const store of ['queue', 'log', 'device'] as const) await (await db()).clear(store)
})

test('a count redraws its own line and no other', async () => {
  const { sheet, row } = await laid(line('pin'), line('nut'))
  const before = row('nut').states
  await sheet.count(set('pin', 3, 1))
  expect(row('pin').states).toEqual([
    ['damaged', 1],
    ['short', 1],
  ])
  expect([row('pin').settled, row('pin').differs, row('pin').stops]).toEqual([true, true, true])
  expect(row('nut').states).toBe(before)
})

test('too many of a part stop nothing, nor does what is not for this vehicle', async () => {
  const { sheet, row } = await laid(line('pin'), line('nut', { kind: 'beside' }))
  await sheet.count(set('pin', 5), set('nut', 1))
  expect([row('pin').differs, row('pin').stops]).toEqual([true, false])
  expect([row('nut').differs, row('nut').stops]).toEqual([true, false])
})

describe('a whole bag', () => {
  test('is one event for each line that nobody has counted, and none for the others', async () => {
    const { sheet, row } = await laid(
      line('pin'),
      line('nut', { pieces: 2 }),
      line('key', { kind: 'reused' }),
    )
    await sheet.count(set('pin', 3))
    const ids = await sheet.allHere(sheet.rows, 'seen')
    expect(ids).toHaveLength(1)
    expect(row('pin').tally?.total).toBe(3)
    expect(row('nut').tally).toEqual({ total: 2, damaged: 0, low: 2, confirm: false })
    expect(row('key').tally).toBeNull()
  })

  test.each(['seen', 'sealed'] as const)('that is %s leaves a line with a wrong part alone', async (how) => {
    const { sheet, row } = await laid(line('pin'), line('nut'))
    await sheet.count({ line: 'pin', kind: 'note', note: { what: 'wrong_part' } })
    expect(await sheet.allHere(sheet.rows, how)).toHaveLength(1)
    expect(row('pin').states).toEqual([['wrong_part', 1]])
    expect([row('pin').settled, row('nut').settled]).toEqual([false, true])
  })

  test('is undone as a whole', async () => {
    const { sheet, row } = await laid(line('pin'), line('nut'))
    const ids = await sheet.allHere(sheet.rows, 'sealed')
    expect(row('pin').states).toEqual([['sealed', 0]])
    await sheet.undo(ids)
    expect([row('pin').tally, row('nut').tally]).toEqual([null, null])
    expect(row('pin').states).toEqual([['untouched', 0]])
  })
})

test('a line is weighed as long as its last count is', async () => {
  const { sheet, row } = await laid(line('pin'))
  await sheet.count({ ...set('pin', 3), how: 'weighed' })
  expect(row('pin').weighed).toBe(true)
  const [counted] = await sheet.count({ ...set('pin', 4), how: 'counted' })
  expect(row('pin').weighed).toBe(false)
  await sheet.undo([counted ?? ''])
  expect(row('pin').weighed).toBe(true)
})

test('a person can undo their own standing counts, the last one first', async () => {
  const { sheet, row } = await laid(line('pin'))
  await sheet.count(set('pin', 3))
  const [note] = await sheet.count({ line: 'pin', kind: 'note', note: { what: 'wrong_part' } })
  expect(row('pin').mine?.id).toBe(note)
  expect(row('pin').states[0]).toEqual(['wrong_part', 1])
  await sheet.undo([note ?? ''])
  expect(row('pin').mine?.total).toBe(3)
  await sheet.undo([row('pin').mine?.id ?? ''])
  expect(row('pin').mine).toBeNull()
})

test('where counts do not go together it is known who counted what', async () => {
  const { sheet, row } = await laid(line('pin'))
  await sheet.count(set('pin', 2))
  await sheet.count(set('pin', 4))
  sheet.log.pulled = [
    {
      ...set('pin', 3),
      v: 1,
      id: 'o',
      device: 'oda',
      n: 1,
      seen: 0,
      seq: 1,
      author: 'oda',
      late: false,
    } as never,
  ]
  sheet.lay([line('pin')])
  expect(row('pin').tally).toEqual({ total: 4, damaged: 0, low: 3, confirm: true })
  expect(row('pin').again.map(({ author, total }) => [author, total])).toEqual([
    ['oda', 3],
    [ME, 4],
  ])
  expect(row('pin').mine?.total).toBe(4)
})

test('a person cannot undo somebody else’s last count', async () => {
  const { sheet, row } = await laid(line('pin'))
  sheet.log.pulled = [
    {
      ...set('pin', 3),
      v: 1,
      id: 'o',
      device: 'oda',
      n: 1,
      seen: 0,
      seq: 1,
      author: 'oda',
      late: false,
    } as never,
  ]
  sheet.lay([line('pin')])
  expect([row('pin').tally?.total, row('pin').mine]).toEqual([3, null])
})

test('a line that was here stays the same object', async () => {
  const { sheet, row } = await laid(line('pin'), line('nut'))
  const [pin, nut] = [row('pin'), row('nut')]
  sheet.lay([line('pin'), line('nut', { quantity: '5', pieces: 5 }), line('key')])
  expect(row('pin')).toBe(pin)
  expect(row('nut')).not.toBe(nut)
  expect(sheet.counted).toHaveLength(3)
})

test('only one line is chosen', async () => {
  const { sheet, row } = await laid(line('pin'), line('nut'))
  sheet.choose(row('pin'))
  sheet.choose(row('nut'))
  expect([row('pin').on, row('nut').on]).toEqual([false, true])
  sheet.choose(null)
  expect([row('nut').on, sheet.chosen]).toEqual([false, null])
})

test('a line counted after closing needs a recount, until somebody has counted it', async () => {
  const { sheet, row } = await laid(line('pin'), line('nut'))
  const fromOda = { v: 1, device: 'oda', n: 1, seen: 0, author: 'oda' }
  sheet.log.pulled = [
    { ...set('pin', 3), ...fromOda, id: 'a', seq: 1, late: false },
    { ...set('nut', 4), ...fromOda, id: 'b', seq: 2, late: false },
    { ...set('pin', 4), ...fromOda, id: 'c', seq: 3, late: true },
  ] as never[]
  sheet.lay([line('pin'), line('nut'), line('key')])
  expect(['pin', 'nut', 'key'].map((id) => row(id).recount)).toEqual([true, false, false])
  await sheet.count({ line: 'pin', kind: 'note', note: { what: 'wrong_part' } })
  expect(row('pin').recount).toBe(true)
  const [again = ''] = await sheet.count(set('pin', 4))
  expect(row('pin').recount).toBe(false)
  await sheet.undo([again])
  expect(row('pin').recount).toBe(true)
})

test('neither somebody else’s undo nor a count after closing changes what stands', async () => {
  const { sheet, row } = await laid(line('pin'))
  const stamp = { v: 1, device: 'd', n: 1, seen: 0, late: false }
  sheet.log.pulled = [
    { ...set('pin', 3), ...stamp, id: 'a', seq: 1, author: ME, how: 'weighed' },
    { ...set('pin', 0), ...stamp, id: 'b', seq: 2, author: 'oda', kind: 'undo', target: 'a' },
    { ...set('pin', 4), ...stamp, id: 'c', seq: 3, author: ME, late: true },
  ] as never[]
  sheet.lay([line('pin')])
  expect([row('pin').mine?.total, row('pin').weighed, row('pin').tally?.total]).toEqual([3, true, 3])
})
