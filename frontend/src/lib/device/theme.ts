/** The appearances: like the device, or fixed on this device. */
export const THEMES = ['device', 'light', 'night'] as const
export type Theme = (typeof THEMES)[number]

const KEY = 'paper'

export function savedTheme(): Theme {
  const theme = localStorage.getItem(KEY)
  return theme === 'light' || theme === 'night' ? theme : 'device'
}

export function applyTheme(choice: Theme = savedTheme()): void {
  if (choice === 'device') {
    localStorage.removeItem(KEY)
    delete document.documentElement.dataset.paper
  } else {
    localStorage.setItem(KEY, choice)
    document.documentElement.dataset.paper = choice
  }
}
