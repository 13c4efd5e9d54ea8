import type { Shape } from '../../../lib/api/types'
import type { Role } from '../../../lib/app/session.svelte'
import { dated, moment } from '../../../lib/text/dates'
import { t } from '../../../lib/text/text'

type Member = Shape<'MemberOut'>
const ROLES: readonly Role[] = ['technician', 'parts', 'advisor', 'manager']

/** Returns the facts under a member's name: oneself, since when, the last sign-in. */
export function memberFacts(member: Member, zone: string | undefined): string[] {
  const signedIn = member.signed_in_at
  return [
    ...(member.own ? [t('people.you')] : []),
    ...(member.since ? [t('people.since', { day: dated(member.since.slice(0, 10)) })] : []),
    ...(member.second_factor ? [t('people.factor.has')] : []),
    signedIn ? t('people.signed_in', { when: moment(signedIn, zone) }) : t('people.never'),
  ]
}

/** Returns the words on the e-mail with a person's link, if one was asked for. */
export function mailFacts(mail: Shape<'EntryMailOut'> | null): string[] {
  return mail ? [t('people.mail', { words: mail.words })] : []
}

/** Returns the roles as choices, each with what it may do. */
export function roleChoices(): { value: Role; label: string }[] {
  return ROLES.map((role) => ({ value: role, label: t(`people.role.${role}`) }))
}
