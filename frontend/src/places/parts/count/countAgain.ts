// Explains why a line needs a recount, with the contradicting counts.
import { knows, type Tally } from '../../../calc/counting'
import type { LogEvent } from '../../../lib/counts/log'
import type { ExplanationText, Step } from '../../../lib/figures/explanation'
import { t } from '../../../lib/text/text'

/** Returns the explanation. `events` are each person's last standing counts that no other count knew. */
export function againExplained(
  title: string,
  events: readonly LogEvent[],
  tally: Tally,
  me: string,
): ExplanationText {
  const { low, total } = tally
  return {
    title,
    rule: [t('pull.how.stands'), t('pull.how.apart'), t('pull.how.numbers')],
    steps: [
      ...events.map((event) => countStep(event, me)),
      ...strangers(events).map(([first, other]) => ({
        words: t('pull.how.strangers', {
          one: who(first, me, 'pull.you'),
          other: who(other, me, 'pull.you'),
        }),
        figure: '',
      })),
      { words: t('pull.how.least'), figure: String(low) },
      { words: t('pull.how.most'), figure: String(total) },
    ],
    result: low === total ? String(total) : t('pull.either', { low, total }),
  }
}

function who(event: LogEvent, me: string, you: 'pull.you' | 'pull.how.you'): string {
  return event.author === me ? t(you) : (event.author_name ?? t(you))
}

function countStep(event: LogEvent, me: string): Step {
  const n = event.total ?? 0
  const isAddition = event.kind === 'add'
  const { damaged } = event
  return {
    words: t(isAddition ? 'pull.how.more' : 'pull.how.counted', { who: who(event, me, 'pull.how.you') }),
    figure: damaged ? t('pull.how.damaged', { n, damaged }) : String(n),
  }
}

/** Returns the pairs of which neither had the other on the screen. */
function strangers(events: readonly LogEvent[]): [LogEvent, LogEvent][] {
  return events.flatMap((first, at) =>
    events
      .slice(at + 1)
      .filter((other) => !knows(first, other) && !knows(other, first))
      .map((other): [LogEvent, LogEvent] => [first, other]),
  )
}
