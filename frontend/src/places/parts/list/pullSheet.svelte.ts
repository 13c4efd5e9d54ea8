// The reactive state of a pull list: one object a line, so that a count redraws only its line.
import { untrack } from 'svelte'
import { fold, knows, type Tally } from '../../../calc/counting'
import { type Figures, type LineStanding, lineFigures, lineStanding } from '../../../calc/lineFigures'
import type { LineState } from '../../../calc/lineState'
import { flags, noteCode } from '../../../calc/observed'
import { onChange } from '../../../lib/api/feed.svelte'
import { CountLog, type LogEvent } from '../../../lib/counts/log'
import type { Draft, LogOwner, Screen } from '../../../lib/counts/queue'
import { openLogs } from '../../../lib/counts/send'
import { countedOn } from '../../../lib/counts/watch'
import { type Groups, grouped, type Line } from './groups'

const STOPS = new Set(['count_again', 'wrong_part', 'damaged', 'short'])

/** One line with its counts. */
export class Row {
  /** True while the line is chosen and the number pad is open for it. */
  on = $state(false)
  tally = $state.raw<Tally | null>(null)
  /** Its states, and the figures that include it. */
  standing: LineStanding
  /** The counts behind its figures: those that no standing count knew. */
  open = $state.raw<LogEvent[]>([])
  /** Wrong-part notes, if one stands. */
  noted = $state.raw<LogEvent[]>([])
  /** True if a count came after closing and nobody has counted the line in full since. */
  recount = $state(false)
  /** True if the last full count was weighed. */
  weighed = $state(false)
  /** The person's own last standing count or note. */
  mine = $state.raw<LogEvent | null>(null)

  constructor(readonly line: Line) {
    this.standing = $state.raw(lineStanding(line.pieces, null, line.kind))
  }

  /** Returns each person's last count if the counts contradict each other. */
  get again(): LogEvent[] {
    return this.tally?.confirm ? lastOfEach(this.open) : []
  }
  get states(): LineState[] {
    return this.standing.states
  }
  /** Returns whether it is counted or was accepted sealed. */
  get settled(): boolean {
    return this.standing.counted
  }
  get differs(): boolean {
    return this.standing.differs
  }

  /** Returns whether a count of its whole bag includes it. A line with a wrong part is counted by itself. */
  get isOfWhole(): boolean {
    return !this.settled && !this.noted.length && this.line.kind !== 'reused'
  }

  /** Returns whether the step that needs it must wait. */
  get stops(): boolean {
    return this.line.kind !== 'beside' && this.states.some(([code]) => STOPS.has(code))
  }

  show(events: readonly LogEvent[], author: string): void {
    const { id, kind, pieces } = this.line
    const tally = fold(events).get(id) ?? null
    const standing = live(events).filter((event) => event.line === id)
    this.tally = tally
    this.standing = lineStanding(pieces, tally, kind, flags(events, new Map([[id, pieces]])).get(id))
    this.open = openCounts(standing)
    this.noted = this.states.some(([code]) => code === 'wrong_part') ? standing.filter(isWrongPart) : []
    this.recount = isLateLast(
      events.filter((event) => event.line === id && event.kind !== 'undo'),
      standing,
    )
    this.weighed = standing.findLast(({ kind }) => kind === 'set')?.how === 'weighed'
    this.mine = standing.findLast((event) => event.author === author) ?? null
  }
}

/** Returns the figures of a list, a bag or a carton. */
export function figuresOf(rows: readonly Row[]): Figures {
  return lineFigures(rows.map((row) => row.standing))
}

/** Returns the counts and notes that came before closing and were not undone. */
function live(events: readonly LogEvent[]): LogEvent[] {
  const timely = events.filter((event) => !event.late)
  const undone = new Set(
    timely.filter((event) => event.kind === 'undo').map((event) => `${event.target} ${event.author}`),
  )
  const speaks = ({ kind }: LogEvent) => kind === 'set' || kind === 'add' || kind === 'note'
  return timely.filter((event) => speaks(event) && !undone.has(`${event.id} ${event.author}`))
}

/** Returns whether no full count follows the last late event of a line. */
function isLateLast(events: readonly LogEvent[], standing: readonly LogEvent[]): boolean {
  const place = ({ seq }: LogEvent) => seq ?? Number.POSITIVE_INFINITY // queued events come last
  const late = events.filter((event) => event.late).map(place)
  return (
    late.length > 0 && !standing.some((event) => event.kind === 'set' && place(event) > Math.max(...late))
  )
}

const isWrongPart = (event: LogEvent) => event.kind === 'note' && noteCode(event) === 'wrong_part'

/** Returns the counts that no other standing count knew. */
function openCounts(standing: readonly LogEvent[]): LogEvent[] {
  const counts = standing.filter(({ kind }) => kind !== 'note')
  return counts.filter((count) => !counts.some((other) => other.kind === 'set' && knows(other, count)))
}

/** Returns each person's last count of each kind. */
function lastOfEach(open: readonly LogEvent[]): LogEvent[] {
  const last = new Map(open.map((event) => [`${event.author} ${event.kind}`, event]))
  return [...last.values()]
}

export class PullSheet {
  rows = $state.raw<Row[]>([])
  groups = $state.raw<Groups<Row>>({ kits: [], needs: [], reused: [] })
  chosen = $state.raw<Row | null>(null)
  closed = $state(false)
  astray = $state(false)
  /** Queued counts of this list on this phone. */
  waiting = $state(0)
  /** The time of the press that moved the pad on to its line; -Infinity if a person chose the line. */
  movedOn = Number.NEGATIVE_INFINITY
  /** The last log number pulled, which is the state on the screen. */
  seq = $state(0)
  readonly log: CountLog
  private byId = new Map<string, Row>()

  constructor(readonly whose: LogOwner) {
    this.log = new CountLog(whose, (lines) => this.redraw(lines))
  }

  /** Returns the lines to count. Reused parts are on the vehicle. */
  get counted(): Row[] {
    return this.rows.filter(({ line }) => line.kind !== 'reused')
  }

  /** Returns the figures of the whole list. */
  get figures(): Figures {
    return figuresOf(this.counted)
  }

  /** Sets the lines of the list; an unchanged line stays the same object. */
  lay(lines: readonly Line[]): void {
    this.rows = lines.map((line) => {
      const before = this.byId.get(line.id)
      return before && JSON.stringify(before.line) === JSON.stringify(line) ? before : new Row(line)
    })
    this.byId = new Map(this.rows.map((row) => [row.line.id, row]))
    this.groups = grouped(this.rows)
    this.redraw(new Set(this.byId.keys()))
  }

  /** Follows the log while the screen is open. Returns a function that stops it. */
  follow(): () => void {
    openLogs.set(this.whose.list, this.log)
    const pull = () => document.visibilityState === 'visible' && void this.pull()
    void this.log.open().then(pull)
    const unfollow = onChange(['counts', 'pull-lists'], async () => (await this.pull()) === null)
    document.addEventListener('visibilitychange', pull)
    addEventListener('online', pull)
    return () => {
      unfollow()
      document.removeEventListener('visibilitychange', pull)
      removeEventListener('online', pull)
      if (openLogs.get(this.whose.list) === this.log) openLogs.delete(this.whose.list)
    }
  }

  async pull() {
    const problem = await this.log.pull()
    this.closed = this.log.state === 'closed'
    this.astray = this.log.astray
    return problem
  }

  choose(row: Row | null): void {
    untrack(() => {
      if (this.chosen) this.chosen.on = false
      if (row) row.on = true
      this.chosen = row
    })
  }

  /** Queues drafts made from the present screen. Resolves to the ids of the events once they are stored. */
  count(...drafts: Draft[]): Promise<string[]> {
    return this.countFrom(this.log.screen, ...drafts)
  }

  /** Queues drafts of a person who began at `screen`: when the row was tapped or the pad opened. */
  async countFrom(screen: Screen, ...drafts: Draft[]): Promise<string[]> {
    const entries = await this.log.count(drafts, screen)
    countedOn(this.whose.list)
    return entries.map(({ id }) => id)
  }

  /** Queues a full count, one event each, for every line of `rows` that is of the whole. */
  allHere(rows: readonly Row[], how: 'seen' | 'sealed', screen = this.log.screen): Promise<string[]> {
    return this.countFrom(
      screen,
      ...rows
        .filter((row) => row.isOfWhole)
        .map(({ line }) => ({
          line: line.id,
          kind: 'set' as const,
          total: line.pieces,
          damaged: 0,
          how,
        })),
    )
  }

  /** Undoes the person's own events. */
  async undo(ids: readonly string[]): Promise<void> {
    const targets = new Set(ids)
    const events = this.log.events.filter((event) => targets.has(event.id))
    await this.count(...events.map(({ id, line }) => ({ line, kind: 'undo' as const, target: id })))
  }

  private redraw(lines: ReadonlySet<string>): void {
    const undos: LogEvent[] = []
    const events = new Map<string, LogEvent[]>([...lines].map((line) => [line, []]))
    for (const event of this.log.events) {
      if (event.kind === 'undo') undos.push(event)
      else events.get(event.line)?.push(event)
    }
    for (const [line, counts] of events) this.byId.get(line)?.show([...counts, ...undos], this.whose.author)
    this.waiting = this.log.queued.length
    this.seq = this.log.seq
  }
}
