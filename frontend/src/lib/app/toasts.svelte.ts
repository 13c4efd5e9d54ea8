export interface Toast {
  id: number
  words: string
  undo?: (() => void) | undefined
  /** The key of its subject. */
  about: readonly string[]
}

const STAYS = 8000
let last = 0

/** A message in passing; it goes by itself. Never an error: those stand where they belong. */
export const toasts = $state<Toast[]>([])

/** Says it; what was said before about the same things is no longer true and goes. */
export function tell(words: string, undo?: () => void, about: readonly string[] = []): void {
  const older = toasts.filter((toast) => toast.about.some((key) => about.includes(key)))
  for (const toast of older) leave(toast.id, null)
  const id = ++last
  toasts.push({ id, words, undo, about })
  setTimeout(() => leave(id), STAYS)
}

/** Takes a toast away, unless a person is in it. */
export function leave(id: number, focused = document.activeElement?.closest(`[data-toast="${id}"]`)): void {
  if (focused) {
    setTimeout(() => leave(id), STAYS)
    return
  }
  const at = toasts.findIndex((toast) => toast.id === id)
  if (at >= 0) toasts.splice(at, 1)
}
