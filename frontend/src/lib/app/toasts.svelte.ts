interface Toast {
  id: number
  words: string
  undo?: (() => void) | undefined
  /** The keys of its subject. */
  about: readonly string[]
}

const STAYS = 8000
let last = 0

/** Messages that disappear by themselves. Never errors: those stay at their place. */
export const toasts = $state<Toast[]>([])

/** Shows a toast and removes earlier ones about the same subject, which are no longer true. */
export function tell(words: string, undo?: () => void, about: readonly string[] = []): void {
  const older = toasts.filter((toast) => toast.about.some((key) => about.includes(key)))
  for (const toast of older) leave(toast.id, null)
  const id = ++last
  toasts.push({ id, words, undo, about })
  setTimeout(() => leave(id), STAYS)
}

/** Removes a toast unless it has the focus. */
export function leave(id: number, focused = document.activeElement?.closest(`[data-toast="${id}"]`)): void {
  if (focused) {
    setTimeout(() => leave(id), STAYS)
    return
  }
  const at = toasts.findIndex((toast) => toast.id === id)
  if (at >= 0) toasts.splice(at, 1)
}
