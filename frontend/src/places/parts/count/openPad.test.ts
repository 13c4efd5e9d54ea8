import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'

vi.stubGlobal('document', { cookie: '', visibilityState: 'visible' })
const { db } = await import('../../../lib/device/database')
const { PullSheet } = await import('../list/pullSheet.svelte')
const { OpenPad } = await import('./openPad.svelte')
type Line = import('../list/groups').Line
type LogEvent = import('../../../lib/counts/log').LogEvent

const LIST = 'list-1'
const line = {
  ...{ id: 'pin', position: 1, kind: 'box', kit: 'A', number: 'pin', title: 'pin', quantity: '4', pieces: 4 },
  ...{ unit: 'pc', carton: '1', bag: '1-01', operation: 'OP', codes: [] },
} as unknown as Line
let seq = 0
let clock = 0

beforeEach(async () => {
  for (const store of ['queue', 'log', 'device'] as const) await (await db()).clear(store)
  seq = 0
  clock = 10_000
})

/** Makes a count by Oda arrive from her phone. */
async function comes(sheet: InstanceType<typeof PullSheet>, change: Partial<LogEvent> = {}) {
  seq += 1
  const event = {
    ...{ v: 1, id: `oda-${seq}`, list: LIST, line: 'pin', kind: 'set', total: 2, damaged: 0, target: null },
    ...{ device: 'hers', n: seq, epoch: 1, seen: seq - 1, made_at: '2026-11-26T14:31:00Z' },
    ...{ author: 'member-oda', author_name: 'Oda', seq, late: false, ...change },
  }
  await (await db()).put('log', { list: LIST, seq, event } as never)
  await sheet.log.open()
}

async function opened() {
  const sheet = new PullSheet({ shop: 'fell', list: LIST, author: 'member-ines' })
  await sheet.log.open()
  sheet.lay([line])
  const [row] = sheet.rows
  if (!row) throw new Error('no row')
  return { sheet, row, open: () => new OpenPad(sheet, row, () => clock) }
}
const save = (total: number) => ({ line: 'pin', kind: 'set' as const, total, damaged: 0 })

test('a count that came while the pad was open is overruled only by who chooses so', async () => {
  const { sheet, row, open } = await opened()
  const pad = open()
  await comes(sheet)
  pad.notice()
  clock += 400
  expect(pad.came.map(({ author_name }) => author_name)).toEqual(['Oda'])
  expect([pad.overrules(3, 0), pad.overrules(2, 0)]).toEqual([true, false])
  await sheet.countFrom(pad.choose(), save(3))
  expect(row.tally).toEqual({ total: 3, damaged: 0, low: 3, confirm: false })
  expect(pad.came).toEqual([])
})

test('both counts ask where a person keeps to what was on the screen as the pad opened', async () => {
  const { sheet, row, open } = await opened()
  const pad = open()
  await comes(sheet)
  pad.notice()
  clock += 400
  await sheet.countFrom(pad.begun, save(3))
  expect(row.tally).toEqual({ total: 3, damaged: 0, low: 2, confirm: true })
  expect(row.again.map(({ author }) => author).sort()).toEqual(['member-ines', 'member-oda'])
})

test('a press right after a count came was made without having read it', async () => {
  const { sheet, row, open } = await opened()
  const pad = open()
  await comes(sheet)
  pad.notice()
  clock += 200
  await sheet.countFrom(pad.choose(), save(3))
  expect(row.tally?.confirm).toBe(true)
})

test('a count that stood there as the pad opened is known', async () => {
  const { sheet, row, open } = await opened()
  await comes(sheet)
  const pad = open()
  expect([pad.others.length, pad.came.length, pad.overrules(3, 0)]).toEqual([1, 0, true])
  await sheet.countFrom(pad.choose(), save(3))
  expect(row.tally).toEqual({ total: 3, damaged: 0, low: 3, confirm: false })
})

test('one more found builds on the count that came, or asks where it was not read', async () => {
  const { sheet, row, open } = await opened()
  const more = { line: 'pin', kind: 'add' as const, total: 1, damaged: 0 }
  const pad = open()
  await comes(sheet)
  pad.notice()
  clock += 400
  const [id = ''] = await sheet.countFrom(pad.choose(), more)
  expect(row.tally).toEqual({ total: 3, damaged: 0, low: 3, confirm: false })
  await sheet.undo([id])
  await sheet.countFrom({ epoch: 1, seen: 0 }, more)
  expect(row.tally).toMatchObject({ total: 3, low: 2, confirm: true })
})

test('a whole bag keeps what another counted while its pad was open', async () => {
  const { sheet, row } = await opened()
  const begun = sheet.log.screen
  await comes(sheet)
  expect(await sheet.allHere(sheet.rows, 'seen', begun)).toEqual([])
  expect(row.tally?.total).toBe(2)
})

test('a wrong-part note that came while the pad was open stays unless a person counts over it', async () => {
  const { sheet, row, open } = await opened()
  const pad = open()
  await comes(sheet, { kind: 'note', total: null, damaged: null, note: { what: 'wrong_part' } })
  const before = pad.begun
  expect(pad.others.map(({ kind }) => kind)).toEqual(['note'])
  const [id = ''] = await sheet.countFrom(before, save(4))
  expect(row.states).toEqual([['wrong_part', 1]])
  await sheet.undo([id])
  pad.notice()
  clock += 400
  await sheet.countFrom(pad.choose(), save(4))
  expect(row.states).toEqual([['all_here', 0]])
})

test('a second tap of the same press counts no second line', async () => {
  const { sheet, open } = await opened()
  sheet.movedOn = clock - 180
  expect(open().isQuiet).toBe(true)
  const pad = open()
  clock += 160
  expect(pad.isQuiet).toBe(false)
  sheet.movedOn = Number.NEGATIVE_INFINITY
  expect(open().isQuiet).toBe(false)
})
