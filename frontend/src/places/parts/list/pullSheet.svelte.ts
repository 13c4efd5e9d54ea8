// A pull list as it is counted here: one reactive object a line, so that a count redraws its line alone.
import { untrack } from 'svelte'
import { fold, knows, type Tally } from '../../../calc/counting'
import { type Figures, type LineStanding, lineFigures, lineStanding } from '../../../calc/lineFigures'
import type { LineState } from '../../../calc/lineState'
import { flags, whatOf } from '../../../calc/observed'
import { onChange } from '../../../lib/api/feed.svelte'
import { type Counted, CountLog } from '../../../lib/counts/log'
import type { Draft, Screen, Whose } from '../../../lib/counts/queue'
import { openLogs } from '../../../lib/counts/send'
import { countedOn } from '../../../lib/counts/watch'
import { type Groups, grouped, type Line } from './groups'

const STOPS = new Set(['count_again', 'wrong_part', 'damaged', 'short'])

/** One line and what is known of it. */
export class Row {
  /** Chosen: the number pad speaks of it. */
  on = $state(false)
  tally = $state.raw<Tally | null>(null)
  /** Its states, and the figures that it is counted in. */
  standing: LineStanding
  /** The counts that its figures rest on: those that no standing count knew. */
  open = $state.raw<Counted[]>([])
  /** Wrong-part notes, where one stands. */
  noted = $state.raw<Counted[]>([])
  /** A count came after closing, and nobody has counted it in full since. */
  recount = $state(false)
  /** Its count stands on a scale. */
  weighed = $state(false)
  /** One's own last count of it that stands. */
  mine = $state.raw<Counted | null>(null)

  constructor(readonly line: Line) {
    this.standing = $state.raw(lineStanding(line.pieces, null, line.kind))
  }

  /** Who said what, where the counts do not go together. */
  get again(): Counted[] {
    return this.tally?.confirm ? lastOfEach(this.open) : []
  }
  get states(): LineState[] {
    return this.standing.states
  }
  /** Counted, or accepted sealed. */
  get settled(): boolean {
    return this.standing.counted
  }
  get differs(): boolean {
    return this.standing.differs
  }

  /** The step that needs it cannot be done as it is. */
  get stops(): boolean {
    return this.line.kind !== 'beside' && this.states.some(([code]) => STOPS.has(code))
  }

  show(events: readonly Counted[], author: string): void {
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

/** The figures of a list, or of a bag or carton of it. */
export function figuresOf(rows: readonly Row[]): Figures {
  return lineFigures(rows.map((row) => row.standing))
}

/** Counts and notes that came before closing and were not undone. */
function live(events: readonly Counted[]): Counted[] {
  const timely = events.filter((event) => !event.late)
  const undone = new Set(
    timely.filter((event) => event.kind === 'undo').map((event) => `${event.target} ${event.author}`),
  )
  const speaks = ({ kind }: Counted) => kind === 'set' || kind === 'add' || kind === 'note'
  return timely.filter((event) => speaks(event) && !undone.has(`${event.id} ${event.author}`))
}

/** Whether what came after closing is the last word on a line, but for notes and single finds. */
function isLateLast(events: readonly Counted[], standing: readonly Counted[]): boolean {
  const place = ({ seq }: Counted) => seq ?? Number.POSITIVE_INFINITY // what waits here comes last
  const late = events.filter((event) => event.late).map(place)
  return (
    late.length > 0 && !standing.some((event) => event.kind === 'set' && place(event) > Math.max(...late))
  )
}

const isWrongPart = (event: Counted) => event.kind === 'note' && whatOf(event) === 'wrong_part'

/** The counts that no other standing one knew. */
function openCounts(standing: readonly Counted[]): Counted[] {
  const counts = standing.filter(({ kind }) => kind !== 'note')
  return counts.filter((count) => !counts.some((other) => other.kind === 'set' && knows(other, count)))
}

/** The last of each person. */
function lastOfEach(open: readonly Counted[]): Counted[] {
  const last = new Map(open.map((event) => [`${event.author} ${event.kind}`, event]))
  return [...last.values()]
}

export class PullSheet {
  rows = $state.raw<Row[]>([])
  groups = $state.raw<Groups<Row>>({ kits: [], needs: [], reused: [] })
  chosen = $state.raw<Row | null>(null)
  closed = $state(false)
  astray = $state(false)
  /** Counts of this list that wait on this phone. */
  waiting = $state(0)
  /** When the press was made with which the pad moved on to its line; never, where a person chose the line. */
  movedOn = Number.NEGATIVE_INFINITY
  /** The last place pulled: what stands on the screen. */
  seq = $state(0)
  readonly log: CountLog
  private byId = new Map<string, Row>()

  constructor(readonly whose: Whose) {
    this.log = new CountLog(whose, (lines) => this.redraw(lines))
  }

  /** Lines to be counted: what is re-used is on the vehicle. */
  get counted(): Row[] {
    return this.rows.filter(({ line }) => line.kind !== 'reused')
  }

  /** The figures of the whole list. */
  get figures(): Figures {
    return figuresOf(this.counted)
  }

  /** Takes over the list's lines; a line that was here stays the same object. */
  lay(lines: readonly Line[]): void {
    this.rows = lines.map((line) => {
      const before = this.byId.get(line.id)
      return before && JSON.stringify(before.line) === JSON.stringify(line) ? before : new Row(line)
    })
    this.byId = new Map(this.rows.map((row) => [row.line.id, row]))
    this.groups = grouped(this.rows)
    this.redraw(new Set(this.byId.keys()))
  }

  /** Follows the log while the screen is open; answers how to stop. */
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

  /** Keeps drafts of what is on the screen now; answers the ids of the events once they are safe. */
  count(...drafts: Draft[]): Promise<string[]> {
    return this.countFrom(this.log.screen, ...drafts)
  }

  /** Keeps drafts of somebody who began with `screen` before them: the row tapped, or the pad opened. */
  async countFrom(screen: Screen, ...drafts: Draft[]): Promise<string[]> {
    const entries = await this.log.count(drafts, screen)
    countedOn(this.whose.list)
    return entries.map(({ id }) => id)
  }

  /** Every line of `rows` that nobody has counted is there in full, each by an event of its own. */
  allHere(rows: readonly Row[], how: 'seen' | 'sealed', screen = this.log.screen): Promise<string[]> {
    const untouched = rows.filter((row) => !row.settled && row.line.kind !== 'reused')
    return this.countFrom(
      screen,
      ...untouched.map(({ line }) => ({
        line: line.id,
        kind: 'set' as const,
        total: line.pieces,
        damaged: 0,
        how,
      })),
    )
  }

  /** Takes back one's own events. */
  async undo(ids: readonly string[]): Promise<void> {
    const targets = new Set(ids)
    const events = this.log.events.filter((event) => targets.has(event.id))
    await this.count(...events.map(({ id, line }) => ({ line, kind: 'undo' as const, target: id })))
  }

  private redraw(lines: ReadonlySet<string>): void {
    const undos: Counted[] = []
    const events = new Map<string, Counted[]>([...lines].map((line) => [line, []]))
    for (const event of this.log.events) {
      if (event.kind === 'undo') undos.push(event)
      else events.get(event.line)?.push(event)
    }
    for (const [line, counts] of events) this.byId.get(line)?.show([...counts, ...undos], this.whose.author)
    this.waiting = this.log.queued.length
    this.seq = this.log.seq
  }
}
