// Keys of the keyboard that act on a screen.

/** Returns whether a key pressed here types into a field, so that it is not one of the screen's. */
export function isTyping(target: EventTarget | null): boolean {
  const element = target as Partial<HTMLElement> | null
  if (element?.isContentEditable) return true
  return ['INPUT', 'TEXTAREA', 'SELECT'].includes(element?.tagName ?? '')
}
