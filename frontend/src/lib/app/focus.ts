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
    (button) => from.compareDocumentPosition(button) & Node.DOCUMENT_POSITION_PRECEDING,
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

/** The keyboard on the head of a screen as soon as it is drawn, unless a person has put it somewhere by then. */
export function onceDrawn(screen: Element): void {
  const watch = new MutationObserver(look)
  watch.observe(screen, { childList: true, subtree: true })
  look()

  function look(): void {
    if (!screen.querySelector('h1')) return
    watch.disconnect()
    if (document.activeElement === document.body) toButtonOrHead()
  }
}
