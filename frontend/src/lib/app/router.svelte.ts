// Routes addresses of the app, /{shop}/{place}/…, with the browser's own history.
export const PLACES = ['counter', 'parts', 'bay', 'office'] as const
export type Place = (typeof PLACES)[number]

export const route = $state({ path: location.pathname, query: location.search })

/** Goes to another address; `replace` overwrites the current history entry. */
export function go(to: string, how: { replace?: boolean } = {}): void {
  if (how.replace) history.replaceState(null, '', to)
  else history.pushState(null, '', to)
  arrive()
  scrollTo(0, 0)
}

function arrive(): void {
  route.path = location.pathname
  route.query = location.search
}

/** Follows the back button and each plain click on a link to a screen of the app. */
export function watchAddress(): void {
  addEventListener('popstate', arrive)
  document.addEventListener('click', (event) => {
    const link = (event.target as Element | null)?.closest('a')
    if (!link || link.target || link.hasAttribute('download') || event.defaultPrevented) return
    if (event.button || event.metaKey || event.ctrlKey || event.shiftKey || event.altKey) return
    const { origin, pathname, search, hash } = new URL(link.href)
    if (origin !== location.origin || !ours(pathname)) return
    if (hash && pathname === location.pathname) return
    event.preventDefault()
    go(pathname + search)
  })
}

/** Returns whether the app draws this path. Other paths, such as a PDF or a customer's link, are the server's. */
function ours(path: string): boolean {
  return path === '/' || path === '/sign-in' || splitPath(path).place !== undefined
}

/** Splits a path: "/fell/counter/quotes/7" gives { slug: "fell", place: "counter", rest: "quotes/7" }. */
export function splitPath(path: string): { slug: string; place: Place | undefined; rest: string } {
  const [slug = '', place = '', ...rest] = path.slice(1).split('/')
  return {
    slug,
    place: PLACES.find((candidate) => candidate === place),
    rest: rest.join('/').replace(/\/$/, ''),
  }
}

/** Matches `rest` against a pattern such as "quotes/:id". Returns the named pieces, or null. */
export function fits(pattern: string, rest: string): Record<string, string> | null {
  const pieces = pattern.split('/')
  const values = rest.split('/')
  if (pieces.length !== values.length) return null
  const named: Record<string, string> = {}
  for (const [i, want] of pieces.entries()) {
    const have = values[i] ?? ''
    if (want.startsWith(':')) {
      if (!have) return null
      named[want.slice(1)] = decodeURIComponent(have)
    } else if (want !== have) return null
  }
  return named
}
