// The one module that talks to the server.
import createClient, { type Middleware } from 'openapi-fetch'
import { online } from '../online.svelte'
import { t } from '../text'
import type { paths } from './schema'
import type { At, Body, Data, Method, Read, Rel } from './types'

/** A refusal (RFC 9457); `title` and `detail` are ready to show. `status` 0: there was no answer at all. */
export interface Problem {
  type: string
  title: string
  status: number
  detail: string
  errors?: { pointer: string; detail: string }[]
}

export type Answer<T> =
  | { ok: true; status: number; data: T; etag: string | null; next: string | null }
  | { ok: false; problem: Problem }

/** The token of the CSRF cookie; over HTTPS its name has the prefix that binds it to this host. */
export function csrfToken(cookies: string): string | undefined {
  return (cookies.match(/(?:^|; )__Host-csrftoken=([^;]+)/) ??
    cookies.match(/(?:^|; )csrftoken=([^;]+)/))?.[1]
}

const csrf: Middleware = {
  onRequest({ request }) {
    const token = csrfToken(document.cookie)
    if (token && request.method !== 'GET') request.headers.set('X-CSRFToken', token)
    return request
  },
}

/** The bare client, typed by the OpenAPI document; screens use `read`, `write` and `resource`. */
export const client = createClient<paths>({ baseUrl: '/', credentials: 'same-origin' })
client.use(csrf)

const calling = { slug: '', signedOut: () => {} }

/** Set by the session: whose shop calls go to, and what happens when a sign-in has ended. */
export function callFor(slug: string, signedOut: () => void): void {
  calling.slug = slug
  calling.signedOut = signedOut
}

/** A name for one command, made before its first try and kept for every repeat of it. */
export function commandId(): string {
  return crypto.randomUUID()
}

interface Raw {
  method: string
  path: string
  at?: Record<string, string | number> | undefined
  query?: Record<string, unknown> | undefined
  body?: unknown
  headers?: Record<string, string> | undefined
}

type Loose = (
  method: string,
  path: string,
  init: object,
) => Promise<{ data?: unknown; error?: unknown; response: Response }>

const SESSION = '/api/v1/session'

/** One request; never throws. 304 comes back as a problem of that status. */
export async function ask(raw: Raw): Promise<Answer<unknown>> {
  const form = raw.body instanceof FormData
  const offline = typeof navigator !== 'undefined' && navigator.onLine === false
  try {
    const { data, error, response } = await (client.request as unknown as Loose)(raw.method, raw.path, {
      params: { path: { slug: calling.slug, ...raw.at }, query: raw.query },
      body: raw.body,
      headers: raw.headers,
      ...(form ? { bodySerializer: (body: unknown) => body } : {}),
    })
    online.up = true
    if (response.ok)
      return {
        ok: true,
        status: response.status,
        data,
        etag: response.headers.get('ETag'),
        next: following(response),
      }
    if (response.status === 401) calling.signedOut()
    return { ok: false, problem: asProblem(error, response.status) }
  } catch {
    online.up = false
    return { ok: false, problem: unreached(raw, offline) }
  }
}

function asProblem(error: unknown, status: number): Problem {
  if (error && typeof error === 'object' && 'title' in error) return { ...(error as Problem), status }
  return {
    type: 'unknown',
    title: t('problem.unknown'),
    status,
    detail: t('problem.unknown.say', { status }),
  }
}

/** The problem of a request that got no answer. A repeated command counts once; another change may have been made. */
function unreached({ method, path }: Raw, offline: boolean): Problem {
  const says = () => {
    if (offline) return t('problem.offline.nothing')
    if (method === 'get' || path === SESSION) return t('problem.offline.read')
    return method === 'post' ? t('problem.offline.say') : t('problem.offline.look')
  }
  return { type: 'offline', title: t('problem.offline'), status: 0, detail: says() }
}

/** The address of the next page, as the Link header gives it. */
function following(response: Response): string | null {
  return /<([^>]+)>;\s*rel="next"/.exec(response.headers.get('Link') ?? '')?.[1] ?? null
}

const WITHIN = '/api/v1/shops/{slug}/'

/** The address of a shop's resource, filled in; the key under which its copy is kept. */
export function address(path: string, at: Record<string, string | number> = {}, query: object = {}): string {
  const filled = (WITHIN + path).replace(/\{(\w+)\}/g, (_, name: string) =>
    encodeURIComponent(String(name === 'slug' ? calling.slug : (at[name] ?? ''))),
  )
  const asked = new URLSearchParams()
  for (const [name, value] of Object.entries(query))
    if (value !== undefined && value !== null && value !== '') asked.set(name, String(value))
  return asked.size ? `${filled}?${asked}` : filled
}

/** Reads a resource below the shop once, without keeping a copy: for searches and pages of a list. */
export function read<P extends Rel<'get'>>(
  path: P,
  how: Read<P> = {} as Read<P>,
): Promise<Answer<Data<'get', P>>> {
  const { at, query } = how as { at?: Record<string, string>; query?: Record<string, unknown> }
  return ask({ method: 'get', path: WITHIN + path, at, query }) as Promise<Answer<Data<'get', P>>>
}

// Commands that got no answer: the same wish again is the same command, so that it happens once. `url` is where it went.
const unanswered = new Map<string, { id: string; url: string }>()

/** Once the server has said what stands at `url`, a person sees what arrived there: the same wish again is a new one. */
export function forgetUnanswered(url: string): void {
  const [path = ''] = url.split('?')
  for (const [wish, command] of unanswered)
    if (command.url === path || command.url.startsWith(`${path}/`)) unanswered.delete(wish)
}

export interface Sent {
  /** The version of what was on the screen (an ETag), for PUT, PATCH and DELETE. */
  match?: string | null
  /** The command's name, for POST, where it must outlive this page or names a form with files. */
  id?: string
}

/** Changes something below the shop. `at` fills the path, `body` is JSON or a form with files. */
export async function write<M extends Exclude<Method, 'get'>, P extends Rel<M>>(
  method: M,
  path: P,
  at: At<M, P>,
  body?: Body<M, P> | FormData,
  sent: Sent = {},
): Promise<Answer<Data<M, P>>> {
  const headers: Record<string, string> = {}
  const url = address(path, at as Record<string, string>)
  const wish = JSON.stringify([method, url, body instanceof FormData || body])
  const id = sent.id ?? unanswered.get(wish)?.id ?? commandId()
  if (method === 'post') headers['Idempotency-Key'] = id
  if (sent.match) headers['If-Match'] = sent.match
  const answer = await ask({ method, path: WITHIN + path, at: at as Record<string, string>, body, headers })
  if (!answer.ok && (answer.problem.status === 0 || answer.problem.status >= 500))
    unanswered.set(wish, { id, url })
  else unanswered.delete(wish)
  return answer as Answer<Data<M, P>>
}

/** The sentence for one field of a refused form, by the name it has in the body. */
export function fieldProblem(problem: Problem | null | undefined, field: string): string | undefined {
  return problem?.errors?.find((error) => error.pointer === `/${field}`)?.detail
}
