import { tick } from 'svelte'

/**
 * Closes what a button opened, and gives the keyboard back to that button: the last one before it that is pressed. Where
 * that button has gone with what it asked for, the keyboard goes to the head of the screen.
 */
export async function giveBack(from: Element, close: () => void): Promise<void> {
  const pressed = from
    .closest('.sheet')
    ?.querySelectorAll<HTMLElement>('button[aria-expanded="true"], button[aria-current]')
  const before = [...(pressed ?? [])].filter(
    (each) => from.compareDocumentPosition(each) & Node.DOCUMENT_POSITION_PRECEDING,
  )
  const opener = before.at(-1)
  close()
  await tick()
  toButtonOrHead(opener)
}

/** The keyboard on this button, or on the head of the screen where the button is not there any more. */
export function toButtonOrHead(button?: HTMLElement): void {
  const to = button?.isConnected ? button : document.querySelector<HTMLElement>('main h1')
  to?.focus({ preventScroll: true })
}
