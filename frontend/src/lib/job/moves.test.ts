import { describe, expect, it } from 'vitest'
import { movesFrom, today } from './moves'

describe('the states that a person sets', () => {
  it.each([
    ['accepted', 'technician', ['in_bay']],
    ['ready', 'advisor', ['in_bay', 'call_off']],
    ['accepted', 'parts', []],
    ['in_bay', 'technician', ['undo']],
    ['in_bay', 'advisor', ['hand_over', 'undo', 'call_off']],
    ['in_checks', 'manager', ['hand_over', 'call_off']],
    ['handed_over', 'technician', []],
    ['handed_over', 'manager', ['undo']],
    ['called_off', 'manager', []],
  ] as const)('from %s the %s may go on to %j', (state, role, moves) => {
    expect(movesFrom({ state }, role)).toEqual(moves)
  })

  it('names the day of the shop, not of the server', () => {
    expect(today('Pacific/Auckland', new Date('2026-11-27T20:00:00Z'))).toBe('2026-11-28')
  })
})
