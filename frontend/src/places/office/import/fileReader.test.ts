import { beforeEach, expect, test, vi } from 'vitest'
import office from '../../../lib/messages/en-GB/office.ftl'
import { learn } from '../../../lib/text/text'
import { form, Reader, type SourceFile, sourceOf } from './fileReader.svelte'

learn(office)
const write = vi.hoisted(() => vi.fn())
let named = 0
vi.mock('../../../lib/api/client', () => ({ write, commandId: () => `command ${++named}` }))

const source = (more: Partial<SourceFile> = {}): SourceFile => ({
  kind: 'kit',
  file: new File(['Part no.;Qty'], 'contents.csv'),
  supplier: '',
  mapping: {},
  ...more,
})
const answer = (id: string) => ({ ok: true, data: { id } })
const problem = { type: 'offline', title: 'No answer', status: 0, detail: '' }
const sentAs = (call: number) => write.mock.calls[call]?.[4].id
const sentFile = (call: number): File => write.mock.calls[call]?.[3].get('file')

beforeEach(() => void write.mockReset())

test('the form holds what was given, and nothing empty', () => {
  const names = (what: SourceFile) => [...form(what).keys()]
  expect(names(source({ supplier: ' ' }))).toEqual(['kind', 'file'])
  const whole = form(source({ supplier: ' Quillfen Supply ', mapping: { number: 'Teil' } }))
  expect(whole.get('supplier')).toBe('Quillfen Supply')
  expect(whole.get('mapping')).toBe('{"number":"Teil"}')
  expect((whole.get('file') as File).name).toBe('contents.csv')
  const more = [new File(['Part no.;Qty'], 'carton B.csv')]
  const files = form(source({ more })).getAll('file') as File[]
  expect(files.map(({ name }) => name)).toEqual(['contents.csv', 'carton B.csv'])
})

test('a reading keeps its file for other columns', async () => {
  write.mockResolvedValue(answer('one'))
  const what = source()
  const reader = new Reader()
  const reading = reader.read(what)
  expect(reader.busy).toBe(true)
  expect(await reader.read(source())).toBeNull()
  expect(await reading).toBe('one')
  expect(reader.busy).toBe(false)
  expect(write).toHaveBeenCalledTimes(1)
  expect(sourceOf('one')).toBe(what)
})

test('without an answer the same file is the same command again; another file is another', async () => {
  write.mockResolvedValue({ ok: false, problem })
  const reader = new Reader()
  const what = source()
  expect(await reader.read(what)).toBeNull()
  expect(reader.problem).toEqual(problem)
  write.mockResolvedValue(answer('two'))
  expect(await reader.read(what)).toBe('two')
  expect(reader.problem).toBeNull()
  await reader.read(source())
  expect(sentAs(1)).toBe(sentAs(0))
  expect(sentAs(2)).not.toBe(sentAs(0))
})

test('what is read again is what was read first', async () => {
  write.mockResolvedValue(answer('three'))
  const file = new File(['first'], 'contents.csv')
  await new Reader().read(source({ file }))
  file.arrayBuffer = () => Promise.reject(new DOMException('changed', 'NotReadableError'))
  expect(await new Reader().read(source({ file, mapping: { number: 'Teil' } }))).toBe('three')
  expect(await sentFile(1).text()).toBe('first')
})

test('a file that is gone, or too large, is not sent', async () => {
  const gone = new File(['x'], 'gone.csv')
  gone.arrayBuffer = () => Promise.reject(new DOMException('gone', 'NotFoundError'))
  const large = new File([new Uint8Array(5 * 1024 * 1024 + 1)], 'large.csv')
  for (const [file, words] of [
    [gone, 'The file has moved or changed since it was chosen'],
    [large, 'This file is too large'],
  ] as const) {
    const reader = new Reader()
    expect(await reader.read(source({ file }))).toBeNull()
    expect(reader.problem?.title).toBe(words)
  }
  expect(write).not.toHaveBeenCalled()
})
