// Keeps the day typed for missing lines on this device until the server has it.
import { recall, remember } from '../../../lib/device/database'

interface TypedDue {
  day: string
  time: string
}

const name = (list: string, lines: readonly string[]) => `due ${list} ${[...lines].sort().join(' ')}`

/** Keeps the entries of the form; an empty day deletes them. */
export function keepDue(list: string, lines: readonly string[], typed: TypedDue): Promise<void> {
  return remember(name(list, lines), typed.day ? { ...typed } : undefined).catch(() => {})
}

export function keptDue(list: string, lines: readonly string[]): Promise<TypedDue | undefined> {
  return recall<TypedDue>(name(list, lines)).catch(() => undefined)
}
