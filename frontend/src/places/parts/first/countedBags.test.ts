import { expect, test } from 'vitest'
import { type CountedBag, linesOf, readBag, refusedLines, textOf } from './countedBags'

const BAG: CountedBag = {
  carton: '1',
  bag: 'A',
  lines: [
    { number: 'QF-101', quantity: '4' },
    { number: 'HOSE 12', quantity: '1.5 m' },
  ],
}

test.each([
  ['QF-101 4', 'QF-101', '4'],
  ['QF-101\t4', 'QF-101', '4'],
  ['QF 101; 4 pcs', 'QF 101', '4 pcs'],
  ['M8 25 x 4', 'M8 25', '4'],
  ['  HOSE 12   1,5 m ', 'HOSE 12', '1,5 m'],
  ['0123 40', '0123', '40'],
])('%s is a part number and a quantity', (text, number, quantity) => {
  expect(readBag(text)).toEqual({ lines: [{ number, quantity }], wrong: 0 })
})

test('a line without a quantity is named by its place in the text', () => {
  expect(readBag('QF-101 4\n\nQF-102\nQF-103 1').wrong).toBe(3)
})

test('a bag that is taken back to be changed is read as it was', () => {
  expect(readBag(textOf(BAG)).lines).toEqual(BAG.lines)
})

test('every line carries its place', () => {
  expect(linesOf([BAG, { carton: '', bag: 'B', lines: [{ number: 'QF-9', quantity: '1' }] }])).toEqual([
    { carton: '1', bag: 'A', number: 'QF-101', quantity: '4' },
    { carton: '1', bag: 'A', number: 'HOSE 12', quantity: '1.5 m' },
    { carton: '', bag: 'B', number: 'QF-9', quantity: '1' },
  ])
})

test('a refusal stands at its line', () => {
  const errors = [{ pointer: '/lines/1/quantity', code: 'x', detail: 'Half a piece.' }]
  const problem = { type: '', title: '', status: 400, detail: '', errors }
  expect(refusedLines(problem, linesOf([BAG]))).toEqual([{ line: linesOf([BAG])[1], why: 'Half a piece.' }])
  expect(refusedLines(null, [])).toEqual([])
})
