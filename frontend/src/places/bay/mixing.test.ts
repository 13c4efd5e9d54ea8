import 'fake-indexeddb/auto'
import { beforeEach, expect, test, vi } from 'vitest'

vi.stubGlobal('document', { cookie: '', visibilityState: 'visible' })
vi.stubGlobal(
  'Request',
  class extends Request {
    constructor(input: string, init?: RequestInit) {
      super(new URL(input, 'http://shop.test'), init)
    }
  },
)
let asked: string[] = []
let answers: ((question: string) => Response | Promise<Response>) | null = null
vi.stubGlobal('fetch', async (request: Request) => {
  const question = new URL(request.url).search
  asked.push(question)
  if (!answers) throw new TypeError('failed to fetch')
  return answers(question)
})

const { after, Mixing } = await import('./mixing.svelte')
type Figure = import('./mixing.svelte').Figure

const CIRCUIT = {
  name: 'coolant',
  title: 'Coolant',
  concentrate: 'Coolant concentrate',
  chemistry: 'ethylene glycol',
  capacity: '14.2',
  capacity_words: '',
  added: '0.4',
  after: '14.6',
  target: '50',
  protects: '-37.1',
  protection_words: '',
  drained: '9.23',
  residual: '42',
  scales: ['percent', 'celsius'] as ('percent' | 'celsius')[],
}
const said = (words: string, status = 200) =>
  Response.json({ words, title: words, detail: words }, { status })
let jobs = 0
const mixing = (job = `job-${++jobs}`) => new Mixing(job, CIRCUIT)
const type = (to: InstanceType<typeof Mixing>, figure: Figure, keys: string) => {
  for (const key of keys) to.press(figure, key)
}

beforeEach(() => {
  asked = []
  answers = said
})

test.each<[string, Figure, string]>([
  ['5.2', 'drained', '5.2'],
  ['5,2', 'drained', '5.2'],
  ['.5', 'drained', '0.5'],
  ['05', 'drained', '5'],
  ['5..2.1', 'drained', '5.21'],
  ['12345', 'drained', '123'],
  ['5.12345', 'drained', '5.123'],
  ['38.555', 'percent', '38.55'],
  ['3x8', 'percent', '38'],
])('typing %s as %s reads %s', (keys, figure, reads) => {
  expect([...keys].reduce((text, key) => after(text, key, figure), '')).toBe(reads)
})

test('a key takes back the last one', () => {
  expect(after('5.2', 'Backspace', 'drained')).toBe('5.')
  expect(after('', 'Backspace', 'drained')).toBe('')
})

test('before anything is measured it asks by what was supposed', async () => {
  const open = mixing()
  await open.open()
  expect(asked).toEqual(['?drained=9.23&reading=42&scale=percent'])
  expect(open.mix?.words).toBe('?drained=9.23&reading=42&scale=percent')
})

test('what was typed is asked once the hand rests, and degrees go out below zero', async () => {
  const open = mixing()
  type(open, 'drained', '5.')
  expect(open.computing).toBe(true)
  type(open, 'percent', '38')
  await open.ask()
  open.read('celsius')
  await open.ask()
  type(open, 'celsius', '24.8')
  await open.ask()
  expect(asked).toEqual([
    '?drained=5&reading=38&scale=percent',
    '?drained=5&reading=42&scale=percent',
    '?drained=5&reading=-24.8&scale=celsius',
  ])
  expect(open.computing).toBe(false)
})

test('it asks by itself, a moment after the last key', async () => {
  const open = mixing()
  type(open, 'drained', '9.6')
  await vi.waitFor(() => expect(open.mix?.words).toContain('drained=9.6'))
  expect(asked).toHaveLength(1)
})

test('an answer that comes late never stands under a newer figure', async () => {
  const open = mixing()
  let late = (_: Response) => {}
  answers = () => new Promise<Response>((resolve) => (late = resolve))
  type(open, 'drained', '5')
  const first = open.ask()
  await vi.waitFor(() => expect(asked).toHaveLength(1))
  answers = said
  type(open, 'drained', '.2')
  await open.ask()
  late(said('old'))
  await first
  expect(open.mix?.words).toContain('drained=5.2')
})

test('a refusal takes away the mix of other figures', async () => {
  const open = mixing()
  await open.open()
  answers = () => said('The system holds 14.2 L.', 422)
  type(open, 'drained', '99')
  await open.ask()
  expect([open.mix, open.problem?.title]).toEqual([null, 'The system holds 14.2 L.'])
})

test('what was typed and its mix are there again, without signal too', async () => {
  const open = mixing('kept')
  type(open, 'drained', '5.2')
  open.read('celsius')
  type(open, 'celsius', '20')
  await open.ask()
  answers = null
  const again = mixing('kept')
  await again.open()
  expect(again.typed).toEqual({ drained: '5.2', celsius: '20' })
  expect(again.scale).toBe('celsius')
  expect(again.mix?.words).toContain('reading=-20')
  expect(again.problem?.status).toBe(0)
  type(again, 'drained', '1')
  await again.ask()
  expect(again.mix).toBe(null) // that mix was for other figures
})

test('a circuit that nobody has measured asks for nothing until litres stand there', async () => {
  const open = new Mixing('bare', { ...CIRCUIT, capacity: null, drained: null })
  await open.open()
  expect([asked, open.computing]).toEqual([[], false])
})

test('the first key after a figure was chosen begins it anew, a point too; Erase still edits', async () => {
  const open = mixing()
  type(open, 'drained', '20')
  open.begin()
  type(open, 'drained', '70')
  expect(open.typed.drained).toBe('70')
  open.begin()
  open.press('drained', 'Backspace')
  type(open, 'drained', '3')
  expect(open.typed.drained).toBe('73')
  open.begin()
  type(open, 'drained', '.5')
  expect(open.typed.drained).toBe('0.5')
  await open.ask()
})

test('what a device kept is replaced by the first key, and so is a reading whose scale was turned', async () => {
  const open = mixing('turned')
  type(open, 'percent', '20')
  await open.ask()
  const again = mixing('turned')
  await again.open()
  type(again, 'percent', '7')
  expect(again.typed.percent).toBe('7')
  again.read('celsius')
  type(again, 'celsius', '24')
  again.read('percent')
  type(again, 'percent', '38')
  expect(again.typed).toEqual({ percent: '38', celsius: '24' })
  await again.ask()
})

test('the mix is supposed until both figures were typed', async () => {
  const open = mixing()
  expect(open.supposed).toBe(true)
  type(open, 'drained', '6.4')
  expect(open.supposed).toBe(true)
  type(open, 'percent', '38')
  expect(open.supposed).toBe(false)
  open.read('celsius')
  expect(open.supposed).toBe(true)
  await open.ask()
})
