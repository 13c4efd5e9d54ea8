// What is done again and again while somebody looks at the screen.
const PAUSE = 20_000

/** Calls `act` every `pause` milliseconds while the page is in sight; answers how to stop. */
export function whileSeen(act: () => void, pause = PAUSE): () => void {
  const timer = setInterval(() => document.visibilityState === 'visible' && act(), pause)
  return () => clearInterval(timer)
}
