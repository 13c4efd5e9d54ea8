/**
 * The connection as it is now: `up` is what the last request or the device said, `waiting` the kept counts,
 * `lingering` those of them that have waited for more than a moment, `needsYou` the refused ones.
 */
export const online = $state({
  up: typeof navigator === 'undefined' || navigator.onLine,
  waiting: 0,
  lingering: 0,
  needsYou: 0,
})

export function watchConnection(): void {
  addEventListener('online', () => {
    online.up = true
  })
  addEventListener('offline', () => {
    online.up = false
  })
}
