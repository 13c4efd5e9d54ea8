import { tick } from 'svelte'
import { forgetForm } from './typedText'

/**
 * Closes a panel and returns the focus to the button that opened it: the last pressed button before the panel. A long
 * panel leaves that button above the screen, so it is scrolled into view. If it is gone, focuses the heading.
 */
export async function closeAndFocusOpener(from: Element, close: () => void): Promise<void> {
  const pressed = from
    .closest('.sheet')
    ?.querySelectorAll<HTMLElement>('button[aria-expanded="true"], button[aria-current]')
  const before = [...(pressed ?? [])].filter(
    (button) => from.compareDocumentPosition(button) & Node.DOCUMENT_POSITION_PRECEDING,
  )
  const opener = before.at(-1)
  forgetForm(from)
  close()
  await tick()
  focusButtonOrHeading(opener)
  if (opener?.isConnected) opener.scrollIntoView({ block: 'nearest' })
}

/** Focuses this button, or the heading of the screen if the button is gone. */
export function focusButtonOrHeading(button?: HTMLElement): void {
  const to = button?.isConnected ? button : document.querySelector<HTMLElement>('main h1')
  to?.focus({ preventScroll: true })
}

/** Focuses the heading of a screen as soon as it is drawn, unless a person has moved the focus by then. */
export function focusHeadingWhenDrawn(screen: Element): void {
  const watch = new MutationObserver(look)
  watch.observe(screen, { childList: true, subtree: true })
  look()

  function look(): void {
    if (!screen.querySelector('h1')) return
    watch.disconnect()
    if (document.activeElement === document.body) focusButtonOrHeading()
  }
}
