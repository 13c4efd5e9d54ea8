// Sentences about counts.
import type { Tally } from '../../calc/counting'
import type { Counted } from '../../lib/counts/log'
import type { Kept } from '../../lib/db'
import { t } from '../../lib/text'

/** Why a line is to be counted again, and who said what. */
export function againWords(events: readonly Counted[], tally: Tally | null, me: string): string {
  const each = events.map((event) => {
    const who = event.author === me ? t('pull.you') : (event.author_name ?? t('pull.you'))
    const n = event.total ?? 0
    return event.kind === 'set' ? t('pull.again.counted', { who, n }) : t('pull.again.found', { who, n })
  })
  const said = sentence(each.join(', '))
  if (events.length < 2) return t('pull.again.impossible', { said })
  if (tally && tally.low === tally.total) return t('pull.again.same', { said })
  return t('pull.again.say', { said })
}

function sentence(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

/** What one's own last count of a line was. */
export function mineWords({ kind, total, damaged, how }: Counted): string {
  if (kind === 'note') return t('pull.mine.note')
  const n = total ?? 0
  if (kind === 'add') return t('pull.mine.add', { n })
  if (how === 'sealed') return t('pull.mine.sealed', { n })
  if (how === 'weighed') return t('pull.mine.weighed', { n })
  return damaged ? t('pull.mine.damaged', { n, damaged }) : t('pull.mine.set', { n })
}

const REFUSED = ['malformed', 'out_of_bounds', 'unknown_line', 'id_reused', 'number_reused'] as const

/** Why the server refused a kept count. */
export function whyRefused({ problem }: Kept): string {
  const known = REFUSED.find((code) => code === problem) ?? 'malformed'
  return t(`phone.why.${known}`)
}

/** What a kept count says. */
export function keptWords({ body }: Kept): string {
  const { kind, total, damaged, how } = body as Counted
  const n = total ?? 0
  if (kind === 'undo') return t('phone.what.undo')
  if (kind === 'note') return t('phone.what.note')
  if (kind === 'add') return t('phone.what.add', { n })
  if (how === 'weighed') return t('phone.what.weighed', { n })
  return damaged ? t('phone.what.damaged', { n, damaged }) : t('phone.what.set', { n })
}
