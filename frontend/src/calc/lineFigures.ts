// Counts the lines that are counted, differ, are sealed or wait, in a bag, a carton, a list or its report. Same rules
// and worked cases as kitting/calc/line_figures.py (fixtures/vectors/line-state.json).
import type { Tally } from './counting'
import { type Code, type Flags, type LineState, lineState } from './lineState'

const DIFFERENCES: readonly Code[] = ['wrong_part', 'damaged', 'short', 'over']

/**
 * The states of one line and the figures that include it. A line differs if it was counted with another total than
 * expected, has damaged pieces or has a standing wrong-part note.
 */
export interface LineStanding {
  states: LineState[]
  counted: boolean
  differs: boolean
  count_again: boolean
  sealed: boolean
}

/** Numbers of lines. `counted` plus `not_counted` is all of them; the other figures may overlap. */
export interface Figures {
  lines: number
  counted: number
  not_counted: number
  differ: number
  count_again: number
  sealed: number
  wrong_part: number
  damaged: number
  short: number
  over: number
  late: number
}

/**
 * Takes the arguments of lineState. A line accepted sealed leaves `sealed` once it differs or needs a recount. A line
 * that nobody counted is counted only if it was accepted sealed.
 */
export function lineStanding(
  expected: number,
  tally: Tally | null,
  kind: string,
  flags: Flags = {},
): LineStanding {
  const states = lineState(expected, tally, kind, flags)
  const differs = DIFFERENCES.some((code) => says(states, code))
  const again = says(states, 'count_again')
  const sealed = Boolean(flags.sealed)
  return {
    states,
    counted: tally !== null || sealed,
    differs,
    count_again: again,
    sealed: sealed && !differs && !again,
  }
}

export function lineFigures(lines: readonly LineStanding[]): Figures {
  const counted = lines.filter((line) => line.counted).length
  const saying = (code: Code) => lines.filter(({ states }) => says(states, code)).length
  return {
    lines: lines.length,
    counted,
    not_counted: lines.length - counted,
    differ: lines.filter((line) => line.differs).length,
    count_again: saying('count_again'),
    sealed: lines.filter((line) => line.sealed).length,
    wrong_part: saying('wrong_part'),
    damaged: saying('damaged'),
    short: saying('short'),
    over: saying('over'),
    late: saying('late'),
  }
}

function says(states: readonly LineState[], code: Code): boolean {
  return states.some(([state]) => state === code)
}
