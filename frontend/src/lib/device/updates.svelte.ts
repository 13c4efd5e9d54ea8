/** `ready` is true once a newer build is downloaded and can take over. */
export const updates = $state({ ready: false })
let registration: ServiceWorkerRegistration | undefined

export async function watchForUpdates(): Promise<void> {
  if (!('serviceWorker' in navigator) || import.meta.env.DEV) return
  const workers = navigator.serviceWorker
  reloadOnceWhenReplaced(workers)
  registration = await workers
    .register('/sw.js', { scope: '/', updateViaCache: 'none' })
    .catch(() => undefined)
  if (!registration) return // a private window may refuse a service worker
  const look = () => {
    if (registration?.waiting && workers.controller) updates.ready = true
  }
  look()
  registration.addEventListener('updatefound', () =>
    registration?.installing?.addEventListener('statechange', look),
  )
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'visible') void registration?.update().catch(() => {})
  })
}

function reloadOnceWhenReplaced(workers: ServiceWorkerContainer): void {
  const had = workers.controller !== null
  let reloading = false
  workers.addEventListener('controllerchange', () => {
    if (!had || reloading) return
    reloading = true
    location.reload()
  })
}

export function useNewVersion(): void {
  registration?.waiting?.postMessage('take-over')
}
