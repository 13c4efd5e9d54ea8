// The person's own sign-ins, PINs and second factor, as far as they change nothing on this device.
import { ask } from '../api/client'

/** Reads the list of the person's sign-ins. */
export function signIns() {
  return ask({ method: 'get', path: '/api/v1/sessions' })
}

/** Ends one of the person's sign-ins on another device. */
export function endSignIn(id: string) {
  return ask({ method: 'delete', path: '/api/v1/sessions/{id}', at: { id } })
}

/** Reads the list of the person's PINs on all devices. */
export function pins() {
  return ask({ method: 'get', path: '/api/v1/pins' })
}

/** Reads whether the person's sign-in has a second factor. */
export function secondFactor() {
  return ask({ method: 'get', path: '/api/v1/second-factor' })
}

/** Makes a secret for an authenticator app; it counts once `confirmFactor` has sent a code of it. */
export function beginFactor(password: string) {
  return ask({ method: 'post', path: '/api/v1/second-factor', body: { password } })
}
