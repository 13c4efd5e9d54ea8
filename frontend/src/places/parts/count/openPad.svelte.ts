// The state of the log when a pad opened, and the events of its line that came from other phones since.
import type { LogEvent } from '../../../lib/counts/log'
import type { Screen } from '../../../lib/counts/queue'
import type { PullSheet, Row } from '../list/pullSheet.svelte'

/** Milliseconds. Two taps within them count one line; a figure shown for less was not read. */
export const BLINK = 300
const DRAWN = 150 // milliseconds that a newly shown line is looked at before it is counted

/** Returns until when a tap belongs to the press that counted a line or a bag, whatever lies under the finger now. */
export const quietAfter = (pressed: number, now: number) => Math.max(pressed + BLINK, now + DRAWN)

export class OpenPad {
  /** The state of the log when the person began. Only the person's own choice moves it on. */
  private screen = $state.raw<Screen>({ epoch: 1, seen: 0 })
  private cameAt = Number.NEGATIVE_INFINITY
  private readonly quietUntil: number

  constructor(
    private readonly sheet: PullSheet,
    private readonly row: Row,
    private readonly now = () => performance.now(),
  ) {
    this.screen = sheet.log.screen
    this.quietUntil = Number.isFinite(sheet.movedOn) ? quietAfter(sheet.movedOn, now()) : sheet.movedOn
  }

  /** The events of other phones on the line: the counts behind its figures, and standing wrong-part notes. */
  get others(): LogEvent[] {
    return [...this.row.open, ...this.row.noted].filter(({ device }) => device !== this.sheet.log.device)
  }

  /** The events of other phones that came after the person began. */
  get came(): LogEvent[] {
    return this.others.filter(({ seq }) => seq !== null && seq > this.screen.seen)
  }

  /** Remembers when the last of them came. */
  notice(): void {
    this.cameAt = this.now()
  }

  /** Returns whether these figures contradict the counts of other phones. */
  overrules(total: number, damaged: number): boolean {
    const { tally } = this.row
    if (!tally || this.others.every(({ kind }) => kind === 'note')) return false
    return tally.confirm || tally.total !== total || tally.damaged !== damaged
  }

  /** Whether a tap now belongs to the previous line, because the pad has just moved on under the finger. */
  get isQuiet(): boolean {
    return this.now() < this.quietUntil
  }

  /**
   * The state of the log when the person began. A count made from it asks for a recount if another came in between.
   */
  get begun(): Screen {
    return this.screen
  }

  /** Returns the state behind a deliberate choice: the newest, unless its last count came too recently to be read. */
  choose(): Screen {
    if (this.came.length && this.now() - this.cameAt >= BLINK) this.screen = this.sheet.log.screen
    return this.screen
  }
}
