import { expect, test } from 'vitest'
import { soughtPieces } from './soughtPieces'

const underlined = (text: string, typed: string) =>
  soughtPieces(text, typed)
    .map((piece) => (piece.sought ? `[${piece.text}]` : piece.text))
    .join('')

test.each([
  ['brake', 'Front big-brake kit, brakes', 'Front big-[brake] kit, [brake]s'],
  ['brakes', 'Front big-brake kit, brakes', 'Front big-[brake] kit, [brakes]'],
  ['bushes', 'Bush, rear', '[Bush], rear'],
  ['bodies', 'Valve body', 'Valve [body]'],
  ['brake T35', 'Brake kit, Tessark T35', '[Brake] kit, Tessark [T35]'],
  ['t35 BRAKE', 'Brake kit, Tessark T35', '[Brake] kit, Tessark [T35]'],
  ['ridge', 'Cambridge', 'Camb[ridge]'],
  ['kit', 'Big kit kitbag outkit', 'Big [kit] [kit]bag outkit'],
  ['BI-TC35-A', 'BI-TC35-A', '[BI]-[TC35]-[A]'],
  ['8/5 (new)', 'Bolt M8', 'Bolt M[8]'],
  ['gas', 'Gasket', '[Gas]ket'],
  ['', 'Bolt', 'Bolt'],
  ['nut', '', ''],
])('for %s in "%s" %s is underlined', (typed, text, marked) => {
  expect(underlined(text, typed)).toBe(marked)
})

test('nothing of the text is lost where matches overlap', () => {
  expect(underlined('Oldakre', 'oldakre old akre')).toBe('[Oldakre]')
})
