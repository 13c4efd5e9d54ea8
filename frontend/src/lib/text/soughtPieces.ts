// Finds the pieces of a text that a search matched, so that they can be underlined.

interface Piece {
  text: string
  sought: boolean
}

const SHORTEST_NOUN = 4
const ENDING = /(?:ies|es|s|y)$/
const OTHER_ENDING = '(?:ies|es|e|s|y)?'
const LETTER = '[\\p{L}\\p{M}\\p{N}]'

/**
 * Splits a text at what was typed: at its words where a word of the text begins with one or is the same noun in the
 * other number ("brakes" and "brake"), else at its letters anywhere.
 */
export function soughtPieces(text: string, typed: string): Piece[] {
  const ends = new Map<number, number>()
  for (const word of typed.match(new RegExp(`${LETTER}+`, 'gu')) ?? []) {
    const matches = matchesOf(text, atBeginning(word))
    for (const match of matches.length ? matches : matchesOf(text, literal(word))) {
      ends.set(match.index, Math.max(ends.get(match.index) ?? 0, match.index + match[0].length))
    }
  }
  const pieces: Piece[] = []
  let at = 0
  for (const [start, end] of [...ends].sort(([a], [b]) => a - b)) {
    if (end <= at) continue
    const from = Math.max(start, at)
    if (from > at) pieces.push({ text: text.slice(at, from), sought: false })
    pieces.push({ text: text.slice(from, end), sought: true })
    at = end
  }
  if (at < text.length || !pieces.length) pieces.push({ text: text.slice(at), sought: false })
  return pieces
}

const matchesOf = (text: string, pattern: string) => [...text.matchAll(new RegExp(pattern, 'giu'))]
const literal = (word: string) => word.replace(/[.*+?^${}()|[\]\\]/g, '\\$&')

function atBeginning(word: string): string {
  const stem = word.length >= SHORTEST_NOUN ? word.replace(ENDING, '') : word
  const otherNumber = stem === word ? '' : `|${literal(stem)}${OTHER_ENDING}(?!${LETTER})`
  return `(?<!${LETTER})(?:${literal(word)}${otherNumber})`
}
