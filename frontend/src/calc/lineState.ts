// The states of one line of a pull list, shown with its figures: the same as kitting/calc/line_state.py, on the
// same worked cases (fixtures/vectors/line-state.json). Returns codes; the catalogue words them.
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

// A code and the pieces (for late and wrong_part: the observations) it speaks of; 0 where it stands alone.
export type LineState = readonly [code: Code, count: number]

// `wrong_part` and `late` number the observations; `sealed`: the bag was accepted unopened.
export interface Flags {
  wrong_part?: number
  late?: number
  sealed?: boolean
}

// The states of a line, the most urgent first; never empty. count_again lets nothing else be read from the
// figures; then wrong_part, damaged, short and over (both against the total, damaged pieces included), late;
// beside is always said last of a line beside the vehicle's list, and a calm word (sealed, all_here, untouched)
// only when no figure and no note says otherwise.
export function lineState(
  expected: number,
  tally: Tally | null,
  kind: string,
  flags: Flags = {},
): LineState[] {
  const states = fromFigures(expected, tally, flags)
  const late = said('late', flags.late)
  if (kind === 'beside') return [...states, ...late, ['beside', 0]]
  return states.length > 0 ? [...states, ...late] : [...late, [calm(tally, flags), 0]]
}

function fromFigures(expected: number, tally: Tally | null, flags: Flags): LineState[] {
  const wrongPart = said('wrong_part', flags.wrong_part)
  if (!tally) return wrongPart
  if (tally.confirm) return [['count_again', tally.total - tally.low], ...wrongPart]
  return [
    ...wrongPart,
    ...said('damaged', tally.damaged),
    ...said('short', expected - tally.total),
    ...said('over', tally.total - expected),
  ]
}

function said(code: Code, count = 0): LineState[] {
  return count > 0 ? [[code, count]] : []
}

function calm(tally: Tally | null, flags: Flags): Code {
  if (flags.sealed) return 'sealed'
  return tally ? 'all_here' : 'untouched'
}
