/** The connection as it is now: `up` is what the last request or the device said, `waiting` the kept events. */
export const online = $state({ up: typeof navigator === 'undefined' || navigator.onLine, waiting: 0 })

export function watchConnection(): void {
  addEventListener('online', () => {
    online.up = true
  })
  addEventListener('offline', () => {
    online.up = false
  })
}
