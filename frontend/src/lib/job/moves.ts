// The states of a job that a person sets: which ones a role may set next, and the requests that set them.
import type { Answer } from '../api/client'
import { write } from '../api/client'
import type { Shape } from '../api/types'

type Job = Shape<'JobOut'>
export type Move = 'in_bay' | 'hand_over' | 'undo' | 'call_off'
interface TypedMove {
  day: string
  odometer: string
  because: string
}

const WAITING = ['accepted', 'waiting', 'ready']
const IN_WORK = ['in_bay', 'in_checks']

/** Returns the moves that a role may make from a job's state, in the order of their buttons. */
export function movesFrom({ state }: Pick<Job, 'state'>, role: string | undefined): Move[] {
  const counter = role === 'advisor' || role === 'manager'
  if (!counter && role !== 'technician') return []
  const off: Move[] = counter ? ['call_off'] : []
  if (WAITING.includes(state)) return ['in_bay', ...off]
  if (state === 'handed_over') return counter ? ['undo'] : []
  if (!IN_WORK.includes(state)) return []
  const undo: Move[] = state === 'in_bay' ? ['undo'] : []
  return counter ? ['hand_over', ...undo, ...off] : undo
}

/** Returns today's date in a zone, as a date field holds it. */
export function today(zone: string | undefined, now = new Date()): string {
  return new Intl.DateTimeFormat('en-CA', { timeZone: zone }).format(now)
}

/** Sends a move with what was typed. */
export function send(
  move: Move,
  { id, state }: Pick<Job, 'id' | 'state'>,
  typed: TypedMove,
): Promise<Answer<Job>> {
  const at = { id }
  const because = { because: typed.because.trim() }
  if (move === 'call_off') return write('post', 'jobs/{id}/call-off', at, because)
  if (move === 'undo') {
    return state === 'handed_over'
      ? write('post', 'jobs/{id}/hand-over/undo', at, because)
      : write('post', 'jobs/{id}/in-bay/undo', at, because)
  }
  const reading = typed.odometer.replace(/[\s.,']/g, '')
  const body = { day: typed.day, odometer: reading ? Number(reading) : null }
  return move === 'in_bay'
    ? write('post', 'jobs/{id}/in-bay', at, body)
    : write('post', 'jobs/{id}/hand-over', at, body)
}
