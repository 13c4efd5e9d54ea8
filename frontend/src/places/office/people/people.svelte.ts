import type { Shape } from '../../../lib/api/types'

type Mail = Shape<'EntryMailOut'> | null | undefined
const SECONDS = 3

/** Reads the people again until no e-mail waits to be sent. */
export function followMails(people: { refresh: () => Promise<unknown> }, mails: () => Mail[]): void {
  $effect(() => {
    if (!mails().some((mail) => mail?.state === 'waiting' || mail?.state === 'begun')) return
    const timer = setInterval(() => void people.refresh(), SECONDS * 1000)
    return () => clearInterval(timer)
  })
}
