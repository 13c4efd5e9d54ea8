// Checks PINs on this phone while there is no signal. It is loaded when a PIN is set or typed.
import type { Problem } from '../api/client'
import words from '../messages/en-GB/pin.ftl'
import { learn, t } from '../text/text'
import { type Lock, type PersonHere, TRIES, writePeople } from './pins'

learn(words)
const ROUNDS = 600_000

/**
 * Tries a PIN without the server. It is counted before it is checked, so that a reload gives no try back. Returns the
 * person if it is right, else the problem; neither where this browser cannot tell.
 */
export async function openWithPin(
  id: string,
  pin: string,
): Promise<{ person?: PersonHere; problem?: Problem }> {
  let person: PersonHere | undefined
  await writePeople((people) =>
    people.map((other) => {
      if (other.id !== id || other.wrong >= TRIES) return other
      person = { ...other, wrong: other.wrong + 1 }
      return person
    }),
  )
  if (!person) return { problem: wrongPin(0) }
  if (Date.parse(person.ends_at) <= Date.now()) return { problem: ended() }
  if (!person.lock) return {}
  const { salt, rounds, hash } = person.lock
  if (!same(await hashed(pin, salt, rounds), hash)) return { problem: wrongPin(TRIES - person.wrong) }
  const right = { ...person, wrong: 0 }
  await writePeople((people) => people.map((other) => (other.id === id ? right : other)))
  return { person: right }
}

const ended = (): Problem => ({
  type: '/problems/pin-ended',
  status: 401,
  title: t('pin.ended'),
  detail: t('pin.ended.detail'),
})

const wrongPin = (left: number): Problem =>
  left
    ? { type: '/problems/wrong-pin', status: 401, title: t('pin.wrong'), detail: t('pin.left', { n: left }) }
    : { type: '/problems/pin-used-up', status: 401, title: t('pin.used_up'), detail: t('pin.used_up.detail') }

/** Returns the lock that a PIN opens; null where the browser has no cryptography. */
export async function locked(pin: string): Promise<Lock | null> {
  if (!globalThis.crypto?.subtle) return null
  const salt = crypto.getRandomValues(new Uint8Array(16))
  return { salt, hash: await hashed(pin, salt, ROUNDS), rounds: ROUNDS }
}

async function hashed(pin: string, salt: Uint8Array<ArrayBuffer>, iterations: number) {
  const key = await crypto.subtle.importKey('raw', new TextEncoder().encode(pin), 'PBKDF2', false, [
    'deriveBits',
  ])
  const how = { name: 'PBKDF2', hash: 'SHA-256', salt, iterations }
  return new Uint8Array(await crypto.subtle.deriveBits(how, key, 256))
}

const same = (bytes: Uint8Array, other: Uint8Array) =>
  bytes.length === other.length && bytes.every((byte, at) => byte === other[at])
