import 'fake-indexeddb/auto'
import { beforeEach, describe, expect, test, vi } from 'vitest'
import type { Answer } from '../../../lib/api/client'
import { answerRequests } from '../../../lib/api/fakeNetwork'
import { session } from '../../../lib/app/session.svelte'
import words from '../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../lib/text/text'
import { type Change, Draft, isOlder, type Quote } from './draft.svelte'

learn(words)

const GROSS = ['100.00', '110.00', '120.00', '130.00', '140.00']
const quote = (version: number, more: object = {}) =>
  ({
    id: 'q',
    revision: 1,
    version,
    state: 'draft',
    editable: true,
    changed_by: 'Ines Fallow',
    changed_at: '2026-11-24T14:06:00Z',
    totals: { gross: GROSS[version] },
    labour: { hours: String(version) },
    ...more,
  }) as unknown as Quote
const ok = (data: Quote): Answer<Quote> => ({
  ok: true,
  status: 200,
  data,
  etag: `"${data.version}"`,
  next: null,
})
const no = (status: number): Answer<Quote> => ({
  ok: false,
  problem: { type: 'x', title: 'refused', status, detail: '' },
})
const change = (says: string, answer: Answer<Quote>): Change => ({ says, send: async () => answer })

function later() {
  let answer: (value: Answer<Quote>) => void = () => {}
  const promise = new Promise<Answer<Quote>>((done) => {
    answer = done
  })
  return { promise, answer }
}

/** Answers each request instead of the server, until the test ends. */
function serve(answer: (request: Request) => Promise<Response>) {
  vi.stubGlobal('document', { cookie: '' })
  answerRequests(answer)
}

let draft: Draft
beforeEach(() => {
  session.enter('saltmarsh')
  draft = new Draft()
  draft.replace(quote(1), '"1"')
})

test('one figure is changed at a time, whichever list it stands in', () => {
  draft.edit('labour:TC-05')
  draft.edit('need:oil')
  expect(draft.editing).toBe('need:oil')
  draft.edit('need:oil')
  expect(draft.editing).toBe('')
})

test('an older answer never takes the place of a newer one', () => {
  draft.replace(quote(3), '"3"')
  draft.replace(quote(2), '"2"')
  expect([draft.data?.version, draft.etag]).toEqual([3, '"3"'])
})

test('what the server says takes the place of a copy kept on this device, whatever its version', () => {
  draft = new Draft()
  draft.data = quote(3)
  draft.replace(quote(2), '"2"')
  expect(draft.data?.version).toBe(2)
})

test.each([
  [quote(2), quote(3), true],
  [quote(3), quote(3), false],
  [quote(9), quote(1, { revision: 2 }), true],
  [quote(3, { state: 'draft' }), quote(3, { state: 'sent' }), true],
  [quote(3, { state: 'sent' }), quote(3, { state: 'accepted' }), true],
  [quote(3, { state: 'accepted' }), quote(3, { state: 'sent' }), false],
  [quote(3, { state: 'accepted' }), quote(1, { revision: 2 }), false],
  [quote(1, { revision: 2 }), quote(3, { state: 'accepted' }), true],
])('which of two is older', (a, b, older) => {
  expect(isOlder(a, b)).toBe(older)
})

test('the version that the customer accepted takes the place of the draft after it, and says so', () => {
  draft.replace(quote(1, { revision: 2 }), '"1"')
  expect(draft.overtaken).toBeNull()
  draft.replace(quote(3, { state: 'accepted', editable: false }), '"3"')
  expect([draft.data?.revision, draft.overtaken]).toEqual([1, { revision: 1, draft: 2 }])
})

test('a read that brings the accepted version says so too, and an older one changes nothing', async () => {
  const reads = [quote(2, { revision: 2 }), quote(1, { revision: 2 }), quote(3, { state: 'accepted' })]
  serve(async () => Response.json(reads.shift()))
  await draft.open({ at: { id: 'q' } })
  await draft.refresh()
  expect(draft.data?.version).toBe(2)
  await draft.refresh()
  expect([draft.data?.state, draft.overtaken]).toEqual(['accepted', { revision: 1, draft: 2 }])
  vi.unstubAllGlobals()
})

test('a draft that was sent and then accepted was overtaken by nothing', () => {
  draft.replace(quote(1, { state: 'sent', editable: false }), '"1"')
  draft.replace(quote(1, { state: 'accepted', editable: false }), '"1"')
  expect(draft.overtaken).toBeNull()
})

test('a change that the draft no longer takes has the quote read again', async () => {
  const refresh = vi.spyOn(draft, 'refresh').mockResolvedValue()
  await draft.make(change('Corroded fasteners: heavy', no(409)))
  expect([refresh.mock.calls.length, draft.refusal?.problem.status]).toEqual([1, 409])
})

test('figures are old until the last of several edits is answered', async () => {
  const [first, second] = [later(), later()]
  const edit = draft.make({ says: 'one', send: () => first.promise })
  const nextEdit = draft.make({ says: 'two', send: () => second.promise })
  expect(draft.busy).toBe(true)
  first.answer(ok(quote(2)))
  await edit
  expect([draft.busy, draft.data?.version]).toEqual([true, 2])
  second.answer(ok(quote(3)))
  await nextEdit
  expect([draft.busy, draft.data?.version]).toEqual([false, 3])
})

test('each edit goes out with the version that the one before it brought', async () => {
  const seen: (string | null)[] = []
  const send = (answer: Quote) => async (match: string | null) => {
    seen.push(match)
    return ok(answer)
  }
  await Promise.all([
    draft.make({ says: 'one', send: send(quote(2)) }),
    draft.make({ says: 'two', send: send(quote(3)) }),
  ])
  expect(seen).toEqual(['"1"', '"2"'])
})

test('what moved says what it was and by what', async () => {
  await draft.make(change('Removed: brakes', ok(quote(2))))
  expect(draft.moved).toEqual({ gross: GROSS[1], hours: '1', ready: null, says: 'Removed: brakes' })
  const same = { totals: { gross: GROSS[2] }, labour: { hours: '2' } }
  await draft.make(change('Customer: Oldacre', ok(quote(3, same))))
  expect(draft.moved).toBe(null)
})

test('a date that moved says what it was; one that was not there before, or still stands, moved nothing', async () => {
  const on = (words: string) => ({
    promise: { ready: { words } },
    totals: { gross: '1' },
    labour: { hours: '1' },
  })
  await draft.make(change('first', ok(quote(2, on('Thu 10 Dec')))))
  expect(draft.moved?.ready).toBe(null)
  await draft.make(change('kit on', ok(quote(3, on('Fri 11 Dec')))))
  expect(draft.moved).toEqual({ gross: null, hours: null, ready: 'Thu 10 Dec', says: 'kit on' })
  await draft.make(change('customer', ok(quote(4, on('Fri 11 Dec')))))
  expect(draft.moved).toBe(null)
})

describe('undo and redo', () => {
  const presses: { url: string; body: unknown }[] = []
  beforeEach(() => {
    presses.length = 0
    serve(async (request) => {
      presses.push({ url: new URL(request.url).pathname, body: await request.json() })
      return Response.json(quote(4), { headers: { ETag: '"4"' } })
    })
    return () => vi.unstubAllGlobals()
  })
  const undoable = { undo: { words: 'Kit removed' }, redo: { words: 'Note changed' } }

  test('are made by the server, with the version that was seen', async () => {
    draft.replace(quote(2, undoable), '"2"')
    await draft.undo()
    expect(presses).toEqual([{ url: '/api/v1/shops/saltmarsh/quotes/q/undo', body: { version: 2 } }])
    draft.replace(quote(5, undoable), '"5"')
    await draft.redo()
    expect(presses[1]).toMatchObject({ url: expect.stringContaining('/redo'), body: { version: 5 } })
  })

  test('send nothing where there is nothing to undo', async () => {
    draft.replace(quote(2, { undo: null, redo: null }), '"2"')
    await draft.undo()
    await draft.redo()
    expect(presses).toEqual([])
  })

  test('of a made change names the version that it brought', async () => {
    const undo = await draft.make(change('off', ok(quote(3, undoable))))
    undo?.()
    await vi.waitFor(() => expect(presses).toMatchObject([{ body: { version: 3 } }]))
  })

  test('of a related record send its own change, made from the quote before', async () => {
    const back = vi.fn(async () => ok(quote(3)))
    const undo = vi.fn(() => ({ says: 'undo', send: back }))
    const undoFacts = await draft.make({ ...change('gearbox', ok(quote(2))), undo })
    undoFacts?.()
    await vi.waitFor(() => expect(back).toHaveBeenCalledTimes(1))
    expect([undo.mock.calls[0], presses]).toEqual([[quote(1)], []])
  })
})

test('a refused change has nothing to undo', async () => {
  expect(await draft.make(change('one', no(422)))).toBeNull()
})

test('a refusal stands where it was pressed, and leaves the quote as it is', async () => {
  await draft.make({ ...change('figure', no(422)), at: 'labour:GEN-01' })
  expect([draft.refusal?.at, draft.data?.version, draft.busy]).toEqual(['labour:GEN-01', 1, false])
  await draft.make(change('other', ok(quote(2))))
  expect(draft.refusal).toBe(null)
})

test('when somebody else was faster, it says who, and what was not made', async () => {
  await draft.make(change('Removed: brakes', no(412)))
  expect(draft.refusal?.problem.title).toContain('Ines Fallow')
  expect(draft.refusal?.problem.detail).toContain('Removed: brakes')
  expect(draft.problem).toBe(null)
})

test('somebody who was faster leaves both drafts to compare, until one is chosen', async () => {
  const newest = quote(2, { changed_by: 'Della Fenn' })
  vi.spyOn(draft, 'refresh').mockImplementation(async () => draft.replace(newest, '"2"'))
  await draft.make(change('Removed: brakes', no(412)))
  expect([draft.refusal?.seen?.version, draft.data?.version]).toEqual([1, 2])
  await draft.make(draft.refusal?.change ?? change('none', no(422)))
  expect(draft.refusal?.seen).toBeUndefined()
})

test('another revision or version turns what hangs on the quote, the same one again does not', async () => {
  draft.replace(quote(1), '"1"')
  expect(draft.turned).toBe(0)
  await draft.make(change('one', ok(quote(2))))
  expect(draft.turned).toBe(1)
  draft.replace(quote(1, { revision: 2 }), '"1"')
  expect(draft.turned).toBe(2)
})

test('a refused edit turns nothing', async () => {
  await draft.make(change('one', no(422)))
  expect(draft.turned).toBe(0)
})

test('what moved is not credited to the last change here once somebody else has made another', async () => {
  await draft.make(change('Removed: brakes', ok(quote(2))))
  draft.replace(quote(2), '"2"')
  expect(draft.moved?.says).toBe('Removed: brakes')
  draft.replace(quote(3), '"3"')
  expect(draft.moved).toBe(null)
})

test('an edit that throws is refused in words, and the next one goes out', async () => {
  const broken: Change = {
    says: 'broken',
    send: () => {
      throw new Error('a fault of ours')
    },
  }
  const [thrown, outcome] = await Promise.allSettled([
    draft.make(broken),
    draft.make(change('next', ok(quote(2)))),
  ])
  expect([thrown.status, outcome.status]).toEqual(['rejected', 'fulfilled'])
  expect([draft.data?.version, draft.busy, draft.computing]).toEqual([2, false, false])
  await expect(draft.make(broken)).rejects.toThrow('a fault of ours')
  expect([draft.refusal?.change, draft.busy]).toEqual([broken, false])
})

test('a reread that throws leaves the quote free', async () => {
  vi.spyOn(draft, 'refresh').mockRejectedValueOnce(new Error('a fault of ours'))
  await expect(draft.reread('vehicle')).rejects.toThrow('a fault of ours')
  expect(draft.busy).toBe(false)
})
