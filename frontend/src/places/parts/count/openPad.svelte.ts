// The figures that a pad showed as it opened, and the events of its line that came from other phones since.
import type { Counted } from '../../../lib/counts/log'
import type { Screen } from '../../../lib/counts/queue'
import type { PullSheet, Row } from '../list/pullSheet.svelte'

/** Two taps within this many milliseconds count one line; what came less than that ago was not read. */
export const BLINK = 300
const DRAWN = 150 // a line that the pad has just moved on to is looked at before it is counted

export class OpenPad {
  /** The log as it was on the screen when the person began. What comes later raises it only when they choose. */
  private screen = $state.raw<Screen>({ epoch: 1, seen: 0 })
  private cameAt = Number.NEGATIVE_INFINITY
  private readonly quietUntil: number

  constructor(
    private readonly sheet: PullSheet,
    private readonly row: Row,
    private readonly now = () => performance.now(),
  ) {
    this.screen = sheet.log.screen
    this.quietUntil = Math.max(sheet.movedOn + BLINK, Number.isFinite(sheet.movedOn) ? now() + DRAWN : 0)
  }

  /** The entries of other phones on the line: the counts that its figures rest on, and wrong-part notes that stand. */
  get others(): Counted[] {
    return [...this.row.open, ...this.row.noted].filter(({ device }) => device !== this.sheet.log.device)
  }

  /** Those of them that were not on the screen when the person began. */
  get came(): Counted[] {
    return this.others.filter(({ seq }) => seq !== null && seq > this.screen.seen)
  }

  /** Remembers when the last of them came. */
  notice(): void {
    this.cameAt = this.now()
  }

  /** Whether a count of these figures says something else than the counts of the other phones. */
  overrules(total: number, damaged: number): boolean {
    const { tally } = this.row
    if (!tally || this.others.every(({ kind }) => kind === 'note')) return false
    return tally.confirm || tally.total !== total || tally.damaged !== damaged
  }

  /** A second tap of the same press: the pad has moved on under the finger. */
  get isQuiet(): boolean {
    return this.now() < this.quietUntil
  }

  /** The screen as it was when the person began. A count made from it asks where another count came in between. */
  get begun(): Screen {
    return this.screen
  }

  /** The screen that a deliberate choice rests on: the newest, unless its last count came too recently to be read. */
  choose(): Screen {
    if (this.came.length && this.now() - this.cameAt >= BLINK) this.screen = this.sheet.log.screen
    return this.screen
  }
}
