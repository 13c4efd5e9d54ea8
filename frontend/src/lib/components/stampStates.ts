// The only states that a stamp may show. Weight: none = nothing yet (dashed), plain = a fact (outlined), act = a
// person is needed (solid). No two states share both shape and weight.
import type { Key } from '../text/text'

export type Weight = 'none' | 'plain' | 'act'
export type Shape =
  | 'untouched'
  | 'ok'
  | 'short'
  | 'over'
  | 'damaged'
  | 'again'
  | 'wrong'
  | 'clock'
  | 'hold'
  | 'go'
  | 'go-due'
  | 'go-hold'
  | 'caution'
  | 'wait'
  | 'sent'
  | 'back'
  | 'swap'
  | 'dot'
  | 'open'
  | 'end'
  | 'no-return'
  | 'no-signal'
  | 'two'
  | 'person'
  | 'pen'
  | 'yes'
  | 'no'
  | 'sealed'
  | 'aside'
  | 'phone'
  | 'run'
  | 'carton'
  | 'flag'
  | 'bay'
  | 'list'
  | 'key'
  | 'lock'
  | 'sheet'
  | 'ask'
  | 'low'

interface Look {
  shape: Shape
  weight: Weight
  word: Key
}

const look = <W extends string>(word: W, shape: Shape, weight: Weight) => ({
  shape,
  weight,
  word: `state.${word}` as `state.${W}`,
})

export const STATES = {
  draft: look('draft', 'pen', 'none'),
  sent: look('sent', 'sent', 'plain'),
  replaced: look('replaced', 'swap', 'plain'),
  accepted: look('accepted', 'yes', 'plain'),
  declined: look('declined', 'no', 'plain'),
  withdrawn: look('withdrawn', 'back', 'plain'),
  expired: look('expired', 'clock', 'plain'),

  untouched: look('untouched', 'untouched', 'none'),
  all_here: look('all_here', 'ok', 'plain'),
  short: look('short', 'short', 'act'),
  over: look('over', 'over', 'act'),
  damaged: look('damaged', 'damaged', 'act'),
  wrong_part: look('wrong_part', 'wrong', 'act'),
  sealed: look('sealed', 'sealed', 'plain'),
  count_again: look('count_again', 'again', 'act'),
  after_closing: look('after_closing', 'clock', 'act'),
  beside: look('beside', 'aside', 'plain'),

  on_this_phone: look('on_this_phone', 'phone', 'plain'),
  needs_you: look('needs_you', 'person', 'act'),

  may_start: look('may_start', 'go', 'plain'),
  may_start_due: look('may_start_due', 'go-due', 'plain'),
  stop_before: look('stop_before', 'go-hold', 'plain'),
  do_not_start: look('do_not_start', 'hold', 'act'),

  comes: look('comes', 'clock', 'none'),
  waits: look('waits', 'wait', 'act'),
  supposed: look('supposed', 'ask', 'none'),

  open: look('open', 'open', 'plain'),
  running: look('running', 'run', 'plain'),
  done: look('done', 'end', 'plain'),
  waiting: look('waiting', 'wait', 'plain'),

  waiting_for_parts: look('waiting_for_parts', 'carton', 'none'),
  ready: look('ready', 'flag', 'plain'),
  in_the_bay: look('in_the_bay', 'bay', 'plain'),
  in_checks: look('in_checks', 'list', 'plain'),
  handed_over: look('handed_over', 'key', 'plain'),
  called_off: look('called_off', 'wrong', 'plain'),

  not_sent: look('not_sent', 'sent', 'none'),
  late: look('late', 'sent', 'act'),
  come_back: look('come_back', 'dot', 'plain'),

  in_force: look('in_force', 'end', 'none'),
  later: look('later', 'flag', 'none'),

  closed: look('closed', 'lock', 'plain'),
  read: look('read', 'sheet', 'none'),
  taken: look('taken', 'sheet', 'plain'),
  refused: look('refused', 'no', 'act'),
  must_fix: look('must_fix', 'caution', 'act'),
  please_check: look('please_check', 'caution', 'plain'),
  below_floor: look('below_floor', 'low', 'act'),
  done_for_you: look('done_for_you', 'pen', 'plain'),
} satisfies Record<string, Look>

export type State = keyof typeof STATES

export function isState(word: string): word is State {
  return Object.hasOwn(STATES, word)
}

const STAMPS: Record<string, State> = { waiting: 'waiting_for_parts', in_bay: 'in_the_bay' }

/** Returns the stamp of a job's state. On a job, "waiting" means waiting for parts. */
export function jobState(state: string): State | undefined {
  return STAMPS[state] ?? (isState(state) ? state : undefined)
}
