// The only module that sends requests to the server. types.ts reads the types of requests and answers from the
// OpenAPI document.
import { online } from '../device/connection.svelte'
import { t } from '../text/text'
import type { At, Body, Data, DataAt, Method, Read, Rel, Whole } from './types'

/** A refusal (RFC 9457). `title` and `detail` are ready to show. `status` 0 means that no answer came. */
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

/** Returns the token of the CSRF cookie. Over HTTPS the cookie's name has the prefix that binds it to this host. */
export function csrfToken(cookies: string): string | undefined {
  return (cookies.match(/(?:^|; )__Host-csrftoken=([^;]+)/) ??
    cookies.match(/(?:^|; )csrftoken=([^;]+)/))?.[1]
}

const calling = {
  slug: '',
  signedOut: () => {},
  admitted: async () => true,
  memberIn: (_slug: string): string | undefined => undefined,
}

/** Sets the shop of later calls and the handler of an ended sign-in. The session calls it. */
export function callFor(slug: string, signedOut: () => void): void {
  calling.slug = slug
  calling.signedOut = signedOut
}

/**
 * Sets what goes before each request but those of the session: `admitted` returns whether the server's sign-in is that
 * of the person on the screen, `memberIn` returns this person's id as a member of a shop.
 */
export function askFor(
  admitted: () => Promise<boolean>,
  memberIn: (slug: string) => string | undefined,
): void {
  calling.admitted = admitted
  calling.memberIn = memberIn
}

/** Returns a new id for a command (its idempotency key). Every repeat of the command keeps the id. */
export function commandId(): string {
  return crypto.randomUUID()
}

type Places = Record<string, string | number>

interface Raw {
  method: Method
  path: string
  at?: Places | undefined
  query?: object | undefined
  body?: unknown
  headers?: Record<string, string> | undefined
}

const SESSION = '/api/v1/session'
const OF_THE_SESSION: readonly string[] = [SESSION, `${SESSION}/pin`]

/** Sends one request with a whole path. Never rejects; a 304 is returned as a problem with that status. */
export function ask<M extends Method, P extends Whole<M>>(
  raw: Raw & { method: M; path: P },
): Promise<Answer<DataAt<M, P>>> {
  return call(raw)
}

/** Like `ask`, for a resource whose path implies `T`. Only this function trusts the server's JSON to be a `T`. */
export async function call<T>(raw: Raw): Promise<Answer<T>> {
  const offline = typeof navigator !== 'undefined' && navigator.onLine === false
  if (!OF_THE_SESSION.includes(raw.path) && !(await calling.admitted()))
    return { ok: false, problem: unreached(raw, true) }
  try {
    const response = await fetch(request(raw))
    const { status, headers } = response
    const data = await content(response)
    online.up = true
    if (response.ok) return { ok: true, status, data, etag: headers.get('ETag'), next: following(response) }
    if (status === 401) calling.signedOut()
    return { ok: false, problem: asProblem(data, status) }
  } catch {
    online.up = false
    return { ok: false, problem: unreached(raw, offline) }
  }
}

function request({ method, path, at, query, body, headers }: Raw): Request {
  const form = body instanceof FormData
  const token = csrfToken(document.cookie)
  const member = path.startsWith(WITHIN) && calling.memberIn(String(at?.slug ?? calling.slug))
  return new Request(fill(path, at, query), {
    method: method.toUpperCase(),
    credentials: 'same-origin',
    body: form ? body : body === undefined ? null : JSON.stringify(body),
    headers: {
      ...(form || body === undefined ? {} : { 'Content-Type': 'application/json' }),
      ...(token && method !== 'get' ? { 'X-CSRFToken': token } : {}),
      ...(member ? { 'X-Member': member } : {}),
      ...headers,
    },
  })
}

/** Returns the JSON of an answer; undefined if it is empty. */
async function content(response: Response) {
  const text = await response.text()
  try {
    return text ? JSON.parse(text) : undefined
  } catch (error) {
    if (response.ok) throw error
    return undefined // an error page of a proxy between us and the server
  }
}

function asProblem(error: Partial<Problem> | undefined, status: number): Problem {
  if (error?.title) return { type: 'unknown', detail: '', ...error, title: error.title, status }
  return {
    type: 'unknown',
    title: t('problem.unknown'),
    status,
    detail: t('problem.unknown.detail', { status }),
  }
}

/**
 * Returns the problem of a request without an answer. A repeated POST counts once; any other change may have been
 * made.
 */
function unreached({ method, path }: Raw, offline: boolean): Problem {
  const says = () => {
    if (offline) return t('problem.offline.nothing')
    if (method === 'get' || path === SESSION) return t('problem.offline.read')
    return method === 'post' ? t('problem.offline.detail') : t('problem.offline.look')
  }
  return { type: 'offline', title: t('problem.offline'), status: 0, detail: says() }
}

/** Returns the cursor of the next page from the Link header. */
function following(response: Response): string | null {
  const address = /<([^>]+)>;\s*rel="next"/.exec(response.headers.get('Link') ?? '')?.[1]
  return new URLSearchParams(address?.split('?')[1]).get('cursor')
}

const WITHIN = '/api/v1/shops/{slug}/'

/** Returns the filled-in address of a shop's resource. Copies on the device are kept under it. */
export function address(path: string, at?: Places, query?: object): string {
  return fill(WITHIN + path, at, query)
}

function fill(path: string, at: Places = {}, query: object = {}): string {
  const places: Places = { slug: calling.slug, ...at }
  const filled = path.replace(/\{(\w+)\}/g, (_, name: string) =>
    encodeURIComponent(String(places[name] ?? '')),
  )
  const parameters = new URLSearchParams()
  for (const [name, value] of Object.entries(query))
    if (value !== undefined && value !== null && value !== '') parameters.set(name, String(value))
  return parameters.size ? `${filled}?${parameters}` : filled
}

/** Reads a shop's resource once without keeping a copy, for searches and pages of a list. */
export function read<P extends Rel<'get'>>(path: P, how?: Read<P>): Promise<Answer<Data<'get', P>>> {
  return call({ method: 'get', path: WITHIN + path, at: how?.at, query: how?.query })
}

// Commands without an answer, keyed by their content, with the `url` of each. The same command again gets the same
// id, so that it counts once.
const unanswered = new Map<string, { id: string; url: string }>()

/**
 * Forgets the commands sent to `url`. Once a person has seen the server's state there, the same command again is a
 * new one.
 */
export function forgetUnanswered(url: string): void {
  const [path = ''] = url.split('?')
  for (const [signature, command] of unanswered)
    if (command.url === path || command.url.startsWith(`${path}/`)) unanswered.delete(signature)
}

export interface Sent {
  /** The ETag of the version on the screen, for PUT, PATCH and DELETE. */
  match?: string | null
  /** The id of a POST that must outlive this page or that names a form with files. */
  id?: string
}

/** Changes something of the shop. `at` fills the path; `body` is JSON or a form with files. */
export async function write<M extends Exclude<Method, 'get'>, P extends Rel<M>>(
  method: M,
  path: P,
  at: At<M, P>,
  body?: Body<M, P> | FormData,
  sent: Sent = {},
): Promise<Answer<Data<M, P>>> {
  const headers: Record<string, string> = {}
  const url = address(path, at)
  const signature = JSON.stringify([method, url, body instanceof FormData || body])
  const id = sent.id ?? unanswered.get(signature)?.id ?? commandId()
  if (method === 'post') headers['Idempotency-Key'] = id
  if (sent.match) headers['If-Match'] = sent.match
  const answer = await call<Data<M, P>>({ method, path: WITHIN + path, at, body, headers })
  if (!answer.ok && (answer.problem.status === 0 || answer.problem.status >= 500))
    unanswered.set(signature, { id, url })
  else unanswered.delete(signature)
  return answer
}

/** Returns the sentence on one field of a refused form; `field` is its name in the body. */
export function fieldProblem(problem: Problem | null | undefined, field: string): string | undefined {
  return problem?.errors?.find((error) => error.pointer === `/${field}`)?.detail
}
