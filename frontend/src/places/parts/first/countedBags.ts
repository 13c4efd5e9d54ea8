// Reads what a person typed or pasted about one bag: a part number and how many, a line each.
import type { Problem } from '../../../lib/api/client'
import type { Shape } from '../../../lib/api/types'

type CountedLine = Shape<'HandCountedLineInRequest'>

export interface CountedBag {
  carton: string
  bag: string
  lines: { number: string; quantity: string }[]
}

// A cell of a spreadsheet, a semicolon or a space stands before the quantity; a unit may follow it.
const LINE = /^(\S.*?)(?:\s*[;\t]\s*|\s+(?:[x×*]\s*)?)(\d+(?:[.,]\d+)?(?:\s*\p{L}{1,8})?)$/u

/** Returns the lines of the text, and the first of its lines that is none (counted from 1; 0 if all are). */
export function readBag(text: string): { lines: CountedBag['lines']; wrong: number } {
  const lines: CountedBag['lines'] = []
  for (const [at, row] of text.split('\n').entries()) {
    if (!row.trim()) continue
    const match = LINE.exec(row.trim())
    if (!match) return { lines, wrong: at + 1 }
    lines.push({ number: match[1] ?? '', quantity: match[2] ?? '' })
  }
  return { lines, wrong: 0 }
}

/** Returns the bag as text that `readBag` reads again. */
export function textOf(bag: CountedBag): string {
  return bag.lines.map((line) => `${line.number}\t${line.quantity}`).join('\n')
}

/** Returns all lines with their places, as the server takes them. */
export function linesOf(bags: readonly CountedBag[]): CountedLine[] {
  return bags.flatMap(({ carton, bag, lines }) => lines.map((line) => ({ carton, bag, ...line })))
}

/** Returns each refused line with the reason. */
export function refusedLines(
  problem: Problem | null,
  lines: readonly CountedLine[],
): { line: CountedLine; why: string }[] {
  return (problem?.errors ?? []).flatMap(({ pointer, detail }) => {
    const line = lines.find((_, at) => pointer?.startsWith(`/lines/${at}/`))
    return line ? [{ line, why: detail }] : []
  })
}
