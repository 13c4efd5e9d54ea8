/** The appearances: like the device, or fixed on this device. */
export const PAPERS = ['device', 'light', 'night'] as const
export type Paper = (typeof PAPERS)[number]

const KEY = 'paper'

export function paper(): Paper {
  const theme = localStorage.getItem(KEY)
  return theme === 'light' || theme === 'night' ? theme : 'device'
}

export function layPaper(choice: Paper = paper()): void {
  if (choice === 'device') {
    localStorage.removeItem(KEY)
    delete document.documentElement.dataset.paper
  } else {
    localStorage.setItem(KEY, choice)
    document.documentElement.dataset.paper = choice
  }
}
