import { tick } from 'svelte'
import { keepText, keptText, nameForm } from './typedText'

type Box = HTMLInputElement | HTMLSelectElement | HTMLTextAreaElement

/** Attaches to a form: fills it with what was typed in a form of this name, and keeps what is typed from then on. */
export function keepForm(name: string): (form: HTMLFormElement) => () => void {
  return (form) => {
    nameForm(form, name)
    const keep = () => keepText(name, JSON.stringify(boxesOf(form).map((box) => [labelOf(box), box.value])))
    void restore(form, keptText(name)).then(() => form.addEventListener('input', keep))
    return () => form.removeEventListener('input', keep)
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
      if (value === undefined || value === box.value) continue
      box.value = value
      box.dispatchEvent(new Event('input', { bubbles: true }))
      box.dispatchEvent(new Event('change', { bubbles: true }))
    }
    await tick()
  }
}

const boxesOf = (form: HTMLFormElement) =>
  [...form.elements].filter(
    (box): box is Box =>
      box instanceof HTMLSelectElement ||
      box instanceof HTMLTextAreaElement ||
      (box instanceof HTMLInputElement && !['file', 'checkbox', 'radio', 'password'].includes(box.type)),
  )

const labelOf = (box: Box) => box.labels?.[0]?.textContent?.trim() ?? ''
