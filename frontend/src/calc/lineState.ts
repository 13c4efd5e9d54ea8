// Works out the states of one line of a pull list. Same rules and worked cases as kitting/calc/line_state.py
// (fixtures/vectors/line-state.json). Returns codes; the catalogue words them.
import type { Tally } from './counting'

export type Code =
  | 'count_again'
  | 'wrong_part'
  | 'damaged'
  | 'short'
  | 'over'
  | 'late'
  | 'sealed'
  | 'all_here'
  | 'untouched'
  | 'beside'

/** A code with its number of pieces (of observations for late and wrong_part); 0 if it has no number. */
export type LineState = readonly [code: Code, count: number]

/** `wrong_part` and `late` are numbers of observations; `sealed` means that the bag was accepted unopened. */
export interface Flags {
  wrong_part?: number
  late?: number
  sealed?: boolean
}

/**
 * Returns the states of a line, the most urgent first; never empty. With count_again the figures give no other state.
 * Then follow wrong_part, damaged, short and over (both compare the total, damaged pieces included) and late.
 * `beside` comes last on each line outside the vehicle's list. A calm state (sealed, all_here, untouched) appears
 * only without any other from figures or notes.
 */
export function lineState(
  expected: number,
  tally: Tally | null,
  kind: string,
  flags: Flags = {},
): LineState[] {
  const states = fromFigures(expected, tally, flags)
  const late = stated('late', flags.late)
  if (kind === 'beside') return [...states, ...late, ['beside', 0]]
  return states.length > 0 ? [...states, ...late] : [...late, [calm(tally, flags), 0]]
}

function fromFigures(expected: number, tally: Tally | null, flags: Flags): LineState[] {
  const wrongPart = stated('wrong_part', flags.wrong_part)
  if (!tally) return wrongPart
  if (tally.confirm) return [['count_again', tally.total - tally.low], ...wrongPart]
  return [
    ...wrongPart,
    ...stated('damaged', tally.damaged),
    ...stated('short', expected - tally.total),
    ...stated('over', tally.total - expected),
  ]
}

function stated(code: Code, count = 0): LineState[] {
  return count > 0 ? [[code, count]] : []
}

function calm(tally: Tally | null, flags: Flags): Code {
  if (flags.sealed) return 'sealed'
  return tally ? 'all_here' : 'untouched'
}
