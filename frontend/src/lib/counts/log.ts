// The log of one pull list as this phone has pulled it, with the queued events on top. The screen shows their fold.
import { type CountEvent, digest, fold } from '../../calc/counting'
import type { Observation } from '../../calc/observed'
import { type Answer, ask, type Problem } from '../api/client'
import type { Shape } from '../api/types'
import { db, type LogRow, type QueuedCount } from '../device/database'
import { type Draft, deviceName, keep, type LogOwner, type Screen, waiting } from './queue'

type Pulled = Shape<'CountEventOut'>
export type SendRequest = typeof ask
export type LogEvent = Observation & { author_name?: string; made_at?: string }
type Page = Shape<'EventsOut'>

export const EVENTS = '/api/v1/shops/{slug}/pull-lists/{id}/events'
const STRICT = { durability: 'strict' } as const
const TURNS = 200 // pages of one pull; more means a fault
const GAPS = 3

export class CountLog {
  /** The last log number pulled, which is the state on the screen. */
  seq = 0
  epoch = 1
  state: Shape<'PullListState'> = 'open'
  /** True if this phone's fold differs from the server's even after reading the whole log again. */
  astray = false
  pulled: Pulled[] = []
  queued: QueuedCount[] = []
  /** The id of this phone's store; empty while the store was never used. */
  device = ''
  private known = false // whether the server ever sent an epoch
  private readAgain = false
  private agreed = ''
  private turn: Promise<unknown> = Promise.resolve()

  constructor(
    readonly whose: LogOwner,
    private changed: (lines: ReadonlySet<string>) => void = () => {},
    private reach: SendRequest = ask,
  ) {}

  /** Returns all events known here: the pulled ones, then the queued ones. */
  get events(): LogEvent[] {
    return [...this.pulled, ...this.queued.map((entry) => this.asEvent(entry))]
  }

  /** Returns the state of the log on the screen: its epoch and the last log number. An open pad keeps it. */
  get screen(): Screen {
    return { epoch: this.epoch, seen: this.seq }
  }

  /** Reads this phone's stores up to the first gap in the log. Also called after another tab has written. */
  open(): Promise<void> {
    return this.after(() => this.read())
  }

  private async read(): Promise<void> {
    const base = await db()
    const { list } = this.whose
    const epoch = (await base.get('device', epochOf(list))) as number | undefined
    const rows = await base.getAll('log', allOf(list))
    const whole = rows.filter((row, at) => row.seq === at + 1)
    this.device = await deviceName()
    this.queued = await waiting(list) // read last: no event may be queued between this line and the next
    this.pulled = whole.map((row) => row.event as Pulled)
    this.seq = whole.length
    this.known = epoch !== undefined
    this.epoch = epoch ?? this.epoch
    this.tell(this.events)
  }

  /** Queues what a person counted while `screen` was shown. Resolves once it is stored on this phone. */
  async count(drafts: readonly Draft[], screen: Screen = this.screen): Promise<QueuedCount[]> {
    const entries = await keep(this.whose, drafts, screen)
    this.device = entries[0]?.device ?? this.device
    this.queued = [...this.queued, ...entries.filter((entry) => !this.has(entry.id))]
    this.tell(entries.map((entry) => this.asEvent(entry)))
    return entries
  }

  /** Reads the server's log to its end, one pull at a time. Returns the problem that stopped it, or null. */
  pull(): Promise<Problem | null> {
    return this.after(() => this.pullAll())
  }

  private after<T>(act: () => Promise<T>): Promise<T> {
    const done = this.turn.then(act)
    this.turn = done.catch(() => {})
    return done
  }

  private async pullAll(): Promise<Problem | null> {
    let gaps = 0
    for (let turn = 0; turn < TURNS; turn += 1) {
      const answer = await this.page()
      if (!answer.ok) return answer.problem
      const page = answer.data
      if (!this.known) await this.adopt(page.epoch)
      if (page.epoch !== this.epoch || page.seq < this.seq) {
        await this.startAnew(page.epoch)
        continue
      }
      const gap = await this.take(page)
      if (gap) gaps += 1
      if (gaps > GAPS) return null
      if (gap || page.more) continue
      if (await this.agrees(page)) return null
    }
    return null
  }

  private page(): Promise<Answer<Page>> {
    return this.reach({
      method: 'get',
      path: EVENTS,
      at: { slug: this.whose.shop, id: this.whose.list },
      query: { after: this.seq, limit: 500 },
    })
  }

  /** Adds the events that follow the last one here. Returns whether the page has a gap. */
  private async take(page: Page): Promise<boolean> {
    const beyond = page.events.filter((event) => event.seq > this.seq)
    const next = beyond.filter((event, at) => event.seq === this.seq + at + 1)
    if (next.length) {
      await this.write(next)
      this.pulled = [...this.pulled, ...next]
      const back = new Map(next.map((event) => [event.id, event]))
      this.queued = this.queued.filter((entry) => !isSame(entry, back.get(entry.id)))
      this.seq += next.length
    }
    const turned = this.state !== page.state
    this.state = page.state
    if (next.length || turned) this.tell(next)
    return next.length < beyond.length
  }

  /** Stores pulled events and removes this phone's own from the queue, in one transaction. */
  private async write(events: readonly Pulled[]): Promise<void> {
    const { list } = this.whose
    const tx = (await db()).transaction(['log', 'queue'], 'readwrite', STRICT)
    const [log, queue] = [tx.objectStore('log'), tx.objectStore('queue')]
    for (const event of events) {
      const own = await queue.get(event.id)
      const before = await log.get([list, event.seq]) // another tab may have been first
      const entry = own && isSame(own, event) ? own : before?.kept
      const row: LogRow = { list, seq: event.seq, event }
      void log.put(entry ? { ...row, kept: entry } : row)
      if (own && isSame(own, event)) void queue.delete(event.id)
    }
    await tx.done
  }

  /** Starts again after the server's log was set back: queues this phone's events again and clears the log. */
  private async startAnew(epoch: number): Promise<void> {
    const { list } = this.whose
    const tx = (await db()).transaction(['log', 'queue', 'device'], 'readwrite', STRICT)
    for (const row of await tx.objectStore('log').getAll(allOf(list)))
      if (row.kept) void tx.objectStore('queue').put(row.kept)
    void tx.objectStore('log').delete(allOf(list))
    void tx.objectStore('device').put(epoch, epochOf(list))
    await tx.done
    const before = this.events
    this.queued = await waiting(list)
    this.pulled = []
    this.seq = 0
    this.epoch = epoch
    this.agreed = ''
    this.tell(before)
  }

  private async adopt(epoch: number): Promise<void> {
    await (await db()).put('device', epoch, epochOf(this.whose.list))
    this.epoch = epoch
    this.known = true
  }

  /**
   * Returns whether this phone's fold has the server's digest. The first difference makes it read the log again, the
   * second sets `astray`.
   */
  private async agrees(page: Page): Promise<boolean> {
    if (!page.digest || page.digest === this.agreed) return true
    const own = await digest(fold(this.pulled))
    if (own === page.digest) {
      this.agreed = own
      this.readAgain = this.astray = false
      return true
    }
    this.astray = this.readAgain
    this.readAgain = !this.readAgain
    if (this.astray) return true
    await this.startAnew(page.epoch)
    return false
  }

  private has(id: string): boolean {
    return this.queued.some((entry) => entry.id === id) || this.pulled.some((event) => event.id === id)
  }

  /** Makes an event of a queued count. From before the log was set back, it knows only this phone's own events. */
  private asEvent(entry: QueuedCount): LogEvent {
    const body = entry.body as CountEvent & Screen
    const seen = body.epoch === this.epoch ? body.seen : 0
    return { ...body, seen, author: entry.author, seq: null }
  }

  private tell(events: readonly { line: string }[]): void {
    this.changed(new Set(events.map((event) => event.line)))
  }
}

const allOf = (list: string) => IDBKeyRange.bound([list, 0], [list, []])
const epochOf = (list: string) => `epoch ${list}`

/**
 * Returns whether the pulled event is the queued one. Compares more than the id, which another phone might repeat by
 * mistake.
 */
function isSame(entry: QueuedCount, event: Pulled | undefined): boolean {
  return event !== undefined && entry.device === event.device && entry.n === event.n
}
