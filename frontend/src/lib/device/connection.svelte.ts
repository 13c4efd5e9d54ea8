/**
 * The state of the connection. `up` is whether the last request or the device reached the network, `waiting` the
 * number of queued counts, `lingering` the number queued for more than a moment, `needsYou` the number refused.
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
