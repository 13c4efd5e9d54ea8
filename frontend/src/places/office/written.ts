import { session } from '../../lib/app/session.svelte'
import { moment } from '../../lib/text/dates'
import { t } from '../../lib/text/text'

/** Says who wrote a row and when; nothing where that was not recorded. */
export function written({ by, added_at }: { by: string | null; added_at: string | null }): string[] {
  if (!added_at) return []
  const when = moment(added_at, session.shop?.zone)
  return [by ? t('office.rules.by', { name: by, when }) : t('office.rules.by_command', { when })]
}
