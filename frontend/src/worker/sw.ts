/// <reference lib="webworker" />
// Caches the app's files, so that it starts without a network. Data is never in this cache: it is in IndexedDB
// (src/lib/device/database.ts).

declare const __FILES__: string[] // build/precache.ts fills in both
declare const __VERSION__: string

const worker = self as unknown as ServiceWorkerGlobalScope
const KEPT = `app-${__VERSION__}`
const SHELL = '/'
// The paths that the app draws; all others go to the server. `shop/urls.py` has the same list.
const OURS = /^\/($|sign-in$|[a-z0-9-]+\/(counter|parts|bay|office)(\/|$))/

worker.addEventListener('install', (event) => {
  event.waitUntil(fill())
})

worker.addEventListener('activate', (event) => {
  event.waitUntil(dropOldVersions().then(() => worker.clients.claim()))
})

worker.addEventListener('message', (event) => {
  if (event.data === 'take-over') void worker.skipWaiting()
})

worker.addEventListener('fetch', (event) => {
  const { request } = event
  const url = new URL(request.url)
  if (request.method !== 'GET' || url.origin !== worker.location.origin) return
  if (request.mode === 'navigate') {
    if (OURS.test(url.pathname)) event.respondWith(kept(SHELL, request))
  } else if (url.pathname.startsWith('/static/app/')) event.respondWith(kept(request, request))
})

async function fill(): Promise<void> {
  const cache = await caches.open(KEPT)
  const shell = new Request(SHELL, { cache: 'reload' })
  await cache.addAll([shell, ...__FILES__])
}

async function dropOldVersions(): Promise<void> {
  for (const name of await caches.keys())
    if (name.startsWith('app-') && name !== KEPT) await caches.delete(name)
}

async function kept(key: RequestInfo, request: Request): Promise<Response> {
  return (await (await caches.open(KEPT)).match(key)) ?? fetch(request)
}
