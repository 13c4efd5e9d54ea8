// The single keys of a screen, and whether a person wants them on this device.

/** A key that acts while no field has the focus. */
export interface ScreenKey {
  key: string
  /** How the key is written in the list, where that is not the key itself. */
  shown?: string
  says: string
  act: () => void
}

const STORED = 'single-keys'

/** Returns the key that was pressed without Ctrl, Alt or Meta. */
export function pressed(
  keys: readonly ScreenKey[],
  event: Pick<KeyboardEvent, 'key' | 'ctrlKey' | 'altKey' | 'metaKey'>,
): ScreenKey | undefined {
  if (event.ctrlKey || event.altKey || event.metaKey) return undefined
  return keys.find(({ key }) => key === event.key.toLowerCase())
}

export function keysOn(): boolean {
  return localStorage.getItem(STORED) !== 'off'
}

export function turnKeys(on: boolean): void {
  if (on) localStorage.removeItem(STORED)
  else localStorage.setItem(STORED, 'off')
}

/** Focuses and presses the button with this id, such as one that opens a form. */
export function pressElement(id: string): void {
  const element = document.getElementById(id)
  element?.focus()
  element?.click()
}
