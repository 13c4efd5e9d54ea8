import { tick } from 'svelte'

/** Closes what a button opened, and gives the keyboard back to that button: the last one before it that is pressed. */
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
  opener?.focus({ preventScroll: true })
}
