import { digest, fold } from '../../calc/counting'
import type { Answer } from '../api/client'
import type { SendRequest } from './log'

// A counting server with its own log, for tests. Each chooses a failure on the way.

export const ME = 'member-ines'

export type Sent = Record<string, unknown> & { id: string; line: string; n: number; device: string }
export type Raw = { method: string; query?: Record<string, unknown>; body?: unknown }

export class Server {
  log: (Sent & { seq: number })[] = []
  epoch = 1
  state = 'open'
  author = ME
  requests: Raw[] = []
  /** Called before the request arrives: returns a status to answer with at once (0: no signal). */
  before: (raw: Raw) => number | undefined = () => undefined
  /** Called after the server acted: true loses the answer. */
  loses: (raw: Raw) => boolean = () => false
  /** Changes a page on its way. */
  bends: (page: { events: Sent[]; [key: string]: unknown }) => void = () => {}
  rejects = new Set<string>()

  reach = (async (request: Raw): Promise<Answer<unknown>> => {
    this.requests.push(request)
    const status = this.before(request)
    if (status !== undefined) return refusal(status)
    const data = request.method === 'post' ? this.store(request) : await this.page(request)
    return this.loses(request) ? refusal(0) : { ok: true, status: 200, data, etag: null, next: null }
  }) as SendRequest

  store({ body }: Raw) {
    const { events } = body as { events: Sent[] }
    return { results: events.map((event) => this.take(event)) }
  }

  take(event: Sent) {
    if (this.rejects.has(event.line))
      return { id: event.id, status: 'rejected', seq: null, problem: 'unknown_line' }
    const stored = this.log.find(({ id }) => id === event.id)
    if (stored) return { id: event.id, status: 'duplicate', seq: stored.seq, problem: null }
    const late = this.state === 'closed'
    const seq = this.log.length + 1
    this.log.push({ how: null, note: null, ...event, author: this.author, author_name: 'Ines', seq, late })
    return { id: event.id, status: late ? 'late' : 'stored', seq, problem: null }
  }

  async page({ query }: Raw) {
    const { after, limit } = query as { after: number; limit: number }
    const events = this.log.slice(after, after + Math.min(limit, 3))
    const seq = Math.min(after, this.log.length) + events.length
    const page: { events: Sent[]; [key: string]: unknown } = {
      events: structuredClone(events),
      more: seq < this.log.length,
      seq,
      epoch: this.epoch,
      state: this.state,
    }
    if (!page.more) page.digest = await digest(fold(this.log as never))
    this.bends(page)
    return page
  }

  /** Adds a count by somebody else. */
  other(line: string, total: number, seen = this.log.length) {
    const n = this.log.length + 1
    const id = `other-${n}`
    this.author = 'member-oda'
    this.take({ v: 1, id, line, kind: 'set', total, damaged: 0, target: null, device: 'oda', n, seen })
    this.author = ME
  }

  posts = () => this.requests.filter(({ method }) => method === 'post').length
}

function refusal(status: number): Answer<unknown> {
  return { ok: false, problem: { type: 'x', title: 'x', status, detail: 'x' } }
}
