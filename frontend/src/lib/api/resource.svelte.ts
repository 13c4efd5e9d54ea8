import { untrack } from 'svelte'
import { session } from '../app/session.svelte'
import { keepCopy, readCopy } from '../device/database'
import { t } from '../text/text'
import { type Answer, address, call, forgetUnanswered, type Problem } from './client'
import { type Kind, onChange } from './feed.svelte'
import type { Data, Read, Rel } from './types'

type RequestParameters = { at?: Record<string, string | number>; query?: Record<string, unknown> }

const alive = new Set<Resource<unknown>>()

/** One resource of the server. Shows the copy on this device at once, then the server's answer. */
export class Resource<T> {
  data = $state.raw<T>()
  /** The time, in ms, when the server last confirmed the shown data; null while nothing is shown. */
  at = $state<number | null>(null)
  /** True once the server has confirmed the data since this screen was opened. */
  fresh = $state(false)
  reading = $state(false)
  /** True while a change is under way: the shown figures are the old ones. */
  computing = $state(false)
  problem = $state.raw<Problem | null>(null)
  etag: string | null = null

  private url = ''
  private parameters: RequestParameters = {}
  private turn: Promise<unknown> = Promise.resolve()
  private reads = { sent: 0, answered: 0 }

  constructor(private path: string) {}

  /** Shows the resource at another address of this path. */
  async open(request: RequestParameters): Promise<void> {
    const url = address(this.path, request.at, request.query)
    if (url === this.url) return
    this.url = url
    this.parameters = request
    this.show(undefined, null, null)
    this.fresh = false
    const copy = await readCopy(this.user, url).catch(() => undefined)
    if (copy && url === this.url && !this.fresh) this.show(copy.data as T, copy.etag, copy.at)
    await this.refresh()
  }

  /** Reads the resource from the server; the shown data stays until the answer. */
  async refresh(): Promise<void> {
    const { url, etag, user } = this
    if (!url) return
    const read = ++this.reads.sent
    this.reading = true
    const answer = await call<T>({
      method: 'get',
      path: `/api/v1/shops/{slug}/${this.path}`,
      at: this.parameters.at,
      query: this.parameters.query,
      headers: etag ? { 'If-None-Match': etag } : {},
    })
    if (url !== this.url || read < this.reads.answered) return // a later request was answered first
    if (user !== this.user) return // the person on this device was changed meanwhile
    this.reads.answered = read
    this.reading = read < this.reads.sent
    if (answer.ok) this.keep(answer.data, answer.etag)
    else if (answer.problem.status === 304) this.confirmed()
    else this.problem = answer.problem
  }

  /** Shows and keeps the answer to a change. A read sent before it may be older: it is dropped and sent again. */
  replace(data: T, etag: string | null): void {
    const overtaken = this.reads.answered < this.reads.sent
    this.reads.answered = ++this.reads.sent
    this.keep(data, etag)
    if (overtaken) void this.refresh()
  }

  protected keep(data: T, etag: string | null): void {
    this.show(data, etag, Date.now())
    this.confirmed()
    void keepCopy({ user: this.user, url: this.url, etag, data, at: Date.now() }).catch(() => {})
  }

  /**
   * Queues a change behind the earlier ones, sends it with the then shown version and shows the answer (optimistic
   * locking). If somebody else changed the resource first (412), reads it again and sets a problem that says so.
   */
  change(send: (match: string | null) => Promise<Answer<T>>): Promise<Answer<T>> {
    const sent = this.turn.then(async () => {
      const { user } = this
      this.computing = true
      let answer: Answer<T>
      try {
        answer = await send(this.etag)
      } finally {
        this.computing = false
      }
      if (user !== this.user) return answer
      if (answer.ok) this.replace(answer.data, answer.etag)
      else await this.refused(answer.problem)
      return answer
    })
    this.turn = sent.catch(() => undefined) // an exception must not block the later changes
    return sent
  }

  private async refused(problem: Problem): Promise<void> {
    if (problem.status === 412) {
      await this.refresh()
      this.problem = { ...problem, title: t('problem.stale'), detail: t('problem.stale.detail') }
    } else this.problem = problem
  }

  private show(data: T | undefined, etag: string | null, at: number | null): void {
    this.data = data
    this.etag = etag
    this.at = at
    this.problem = null
  }

  private confirmed(): void {
    forgetUnanswered(this.url)
    this.fresh = true
    this.at = Date.now()
    this.problem = null
  }

  private get user(): string {
    return session.user?.email ?? ''
  }
}

/**
 * Returns a resource that lives as long as its component and follows the reactive values that `how` reads. `how`
 * returns null while nothing is to be read.
 */
export function resource<P extends Rel<'get'>>(
  path: P,
  how?: () => Read<P> | null,
): Resource<Data<'get', P>> {
  const live = new Resource<Data<'get', P>>(path)
  $effect(() => {
    const request = how ? (how() as RequestParameters | null) : {}
    if (request) untrack(() => void live.open(request))
  })
  $effect(() => {
    alive.add(live as Resource<unknown>)
    return () => alive.delete(live as Resource<unknown>)
  })
  return live
}

type Shown = Pick<Resource<unknown>, 'refresh' | 'problem'>

/** Reads the resources again when something of these kinds has changed in the shop. */
export function follow(kinds: readonly Kind[], ...resources: readonly Shown[]): void {
  $effect(() => onChange(kinds, () => readAgain(...resources)))
}

/** Reads the resources again. Returns whether the server was reached, even if it refused. */
export async function readAgain(...resources: readonly Shown[]): Promise<boolean> {
  await Promise.all(resources.map((resource) => resource.refresh()))
  return resources.every(({ problem }) => !problem || (problem.status >= 400 && problem.status < 429))
}

/** Reads every shown resource again when the signal returns or the app becomes visible. */
export function watchResources(): void {
  const again = () => {
    if (document.visibilityState === 'visible') for (const resource of alive) void resource.refresh()
  }
  addEventListener('online', again)
  document.addEventListener('visibilitychange', again)
}
