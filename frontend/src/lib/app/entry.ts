// Ways into the app for somebody who is not signed in yet.
import { ask } from '../api/client'
import type { Shape } from '../api/types'

/** Reads what the link of an invitation or of a new password is for. */
export async function readEntry(token: string) {
  await ask({ method: 'get', path: '/api/v1/session' }) // brings the CSRF cookie to a fresh browser
  return ask({ method: 'post', path: '/api/v1/entry/reading', body: { token } })
}

/** Sets name and password by such a link. The person is not signed in by it. */
export function comeIn(body: Shape<'EntryInRequest'>) {
  return ask({ method: 'post', path: '/api/v1/entry', body })
}

/** Asks for an e-mail with a link for a new password. The answer never tells whether the e-mail is known. */
export function askForPassword(email: string) {
  return ask({ method: 'post', path: '/api/v1/forgotten', body: { email } })
}

/** Reads the choices of the form that opens the first shop. */
export function openingChoices() {
  return ask({ method: 'get', path: '/api/v1/opening' })
}
