import { tick } from 'svelte'
import { keepText, keptText, nameForm } from './typedText'

type Box = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement | HTMLButtonElement

/** Attaches to a form: fills it with what was typed and chosen in a form of this name, and keeps both from then on. */
export function keepForm(name: string): (form: HTMLFormElement) => () => void {
  return (form) => {
    nameForm(form, name)
    const keep = () =>
      keepText(name, JSON.stringify(boxesOf(form).map((box) => [labelOf(box), shownValue(box)])))
    const keepChoice = (event: Event) => {
      if (event.target instanceof HTMLButtonElement && isChoice(event.target)) void tick().then(keep)
    }
    void restore(form, keptText(name)).then(() => {
      form.addEventListener('input', keep)
      form.addEventListener('click', keepChoice)
    })
    return () => {
      form.removeEventListener('input', keep)
      form.removeEventListener('click', keepChoice)
    }
  }
}

/** Fills the fields in their order. A choice may bring further fields, so they are looked for twice. */
async function restore(form: HTMLFormElement, stored: string): Promise<void> {
  if (!stored) return
  await tick() // until the form shows what it begins with
  const values: [string, string][] = JSON.parse(stored)
  for (let turn = 0; turn < 2; turn++) {
    const left = [...values]
    for (const box of boxesOf(form)) {
      const at = left.findIndex(([label]) => label === labelOf(box))
      const value = left.splice(at, at < 0 ? 0 : 1)[0]?.[1]
      if (value !== undefined && value !== shownValue(box)) fill(box, value)
    }
    await tick()
  }
}

function fill(box: Box, value: string): void {
  if (box instanceof HTMLButtonElement) {
    if (value === 'true') box.click() // only the pressed button of its group
    return
  }
  box.value = value
  box.dispatchEvent(new Event('input', { bubbles: true }))
  box.dispatchEvent(new Event('change', { bubbles: true }))
}

const isChoice = (button: HTMLButtonElement) => button.hasAttribute('aria-pressed')
const boxesOf = (form: HTMLFormElement) =>
  [...form.elements].filter(
    (box): box is Box =>
      box instanceof HTMLSelectElement ||
      box instanceof HTMLTextAreaElement ||
      (box instanceof HTMLButtonElement && isChoice(box)) ||
      (box instanceof HTMLInputElement && !['file', 'checkbox', 'radio', 'password'].includes(box.type)),
  )

const labelOf = (box: Box) =>
  (box instanceof HTMLButtonElement ? box : box.labels?.[0])?.textContent?.trim() ?? ''
const shownValue = (box: Box) =>
  box instanceof HTMLButtonElement ? (box.getAttribute('aria-pressed') ?? '') : box.value
