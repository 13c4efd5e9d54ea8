// Words counts.
import type { Tally } from '../../../calc/counting'
import type { LogEvent } from '../../../lib/counts/log'
import type { QueuedCount } from '../../../lib/device/database'
import { t } from '../../../lib/text/text'

/** Words why a line needs a recount, with each person's figures. */
export function againWords(events: readonly LogEvent[], tally: Tally | null, me: string): string {
  const summands = events.map((event, at) => {
    const who = nameOf(event, me, at ? 'pull.you' : 'pull.how.you')
    const n = event.total ?? 0
    return event.kind === 'set' ? t('pull.again.counted', { who, n }) : t('pull.again.more', { who, n })
  })
  const sum = summands.join(', ')
  if (events.length < 2) return t('pull.again.impossible', { counts: sum })
  if (tally && tally.low === tally.total) return t('pull.again.same', { counts: sum })
  return t('pull.again.detail', { counts: sum })
}

/** Returns the name of a count's author; `you` for the reader. */
export function nameOf(
  event: LogEvent,
  me: string,
  you: 'pull.you' | 'pull.how.you' = 'pull.how.you',
): string {
  return event.author === me ? t(you) : (event.author_name ?? t(you))
}

/** Words one count or note: "2", "4, 1 damaged", "1 more", "wrong part". */
export function figureWords({ kind, total, damaged }: LogEvent): string {
  if (kind === 'note') return t('state.wrong_part')
  const n = total ?? 0
  if (kind === 'add') return t('pull.figure.more', { n })
  return numbersWords(n, damaged ?? 0)
}

/** Words a number with its damaged ones: "4", "4, 1 damaged". */
export function numbersWords(n: number, damaged: number): string {
  return damaged ? t('pull.figure.damaged', { n, damaged }) : String(n)
}

/** Words the figures of a line so far: "2", "3 + 1 = 4 so far", "2\u20134". Empty if nobody has counted it. */
export function soFarWords(open: readonly LogEvent[], tally: Tally | null): string {
  if (!tally) return ''
  if (tally.confirm) return t('pull.either', { low: tally.low, total: tally.total })
  const added = open.filter(({ kind, total }) => kind === 'add' && total)
  if (!added.length) return numbersWords(tally.total, tally.damaged)
  const counted = open.find(({ kind }) => kind === 'set')?.total ?? 0
  const sum = added
    .map(({ total }) => ((total ?? 0) < 0 ? ` \u2212 ${-(total ?? 0)}` : ` + ${total}`))
    .join('')
  return t('pull.figure.sum', { sum: `${counted}${sum}`, total: numbersWords(tally.total, tally.damaged) })
}

/** Words a person's own last count of a line. */
export function mineWords({ kind, total, damaged, how }: LogEvent): string {
  if (kind === 'note') return t('pull.mine.note')
  const n = total ?? 0
  if (kind === 'add') return t('pull.mine.add', { n })
  if (how === 'sealed') return t('pull.mine.sealed', { n })
  if (how === 'weighed') return t('pull.mine.weighed', { n })
  return damaged ? t('pull.mine.damaged', { n, damaged }) : t('pull.mine.set', { n })
}

const REFUSED = ['malformed', 'out_of_bounds', 'unknown_line', 'id_reused', 'number_reused'] as const

/** Words why the server refused a kept count. */
export function whyRefused({ problem }: QueuedCount): string {
  const code = REFUSED.find((code) => code === problem) ?? 'malformed'
  return t(`phone.why.${code}`)
}

/** Words a kept count. */
export function queuedWords({ body }: QueuedCount): string {
  const { kind, total, damaged, how } = body as LogEvent
  const n = total ?? 0
  if (kind === 'undo') return t('phone.what.undo')
  if (kind === 'note') return t('phone.what.note')
  if (kind === 'add') return t('phone.what.add', { n })
  if (how === 'weighed') return t('phone.what.weighed', { n })
  return damaged ? t('phone.what.damaged', { n, damaged }) : t('phone.what.set', { n })
}
