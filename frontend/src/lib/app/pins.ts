// The people who have set a PIN on this phone: their names, and how each is let in while there is no signal. The
// server decides whenever it answers. The phone keeps a salted, slow hash of the PIN and counts wrong tries itself.
import type { Problem } from '../api/client'
import type { Shape } from '../api/types'
import { db, recall } from '../device/database'
import { t } from '../text/text'

type SessionState = Shape<'SessionOut'>

/** A hash of a PIN (PBKDF2, SHA-256). */
interface Lock {
  salt: Uint8Array<ArrayBuffer>
  hash: Uint8Array<ArrayBuffer>
  rounds: number
}

/** A person on this phone. `id` is the PIN's, `state` what the server said last about the person who is let in. */
export interface PersonHere {
  id: string
  name: string
  email: string
  state: SessionState
  /** Null where the browser has no cryptography: without signal nobody is let in then. */
  lock: Lock | null
  wrong: number
  ends_at: string
}

export const TRIES = 5
export const DIGITS = 6
const KEY = 'people'
const ROUNDS = 600_000

export async function peopleHere(): Promise<PersonHere[]> {
  return (await recall<PersonHere[]>(KEY)) ?? []
}

/** Keeps a person whose PIN the server has just taken, in place of an earlier PIN of theirs. */
export async function addPerson(
  { id, ends_at }: Shape<'PinOut'>,
  pin: string,
  state: SessionState,
): Promise<PersonHere[]> {
  const { name = '', email = '' } = state.user ?? {}
  const person = { id, name, email, state, lock: await locked(pin), wrong: 0, ends_at }
  return write((people) => [...people.filter((other) => other.email !== email), person])
}

/** Removes the people whose PINs have ended; (those who stay, those who go). */
export async function keepPeople(
  ids: readonly string[],
): Promise<{ stay: PersonHere[]; gone: PersonHere[] }> {
  const before = await peopleHere()
  const gone = before.filter(({ id }) => !ids.includes(id))
  return {
    stay: gone.length ? await write((people) => people.filter(({ id }) => ids.includes(id))) : before,
    gone,
  }
}

/** Keeps what the server said about a person whom it has let in, and forgets their wrong tries. */
export function updatePerson(state: SessionState): Promise<PersonHere[]> {
  return write((people) =>
    people.map((person) =>
      person.email === state.user?.email ? { ...person, name: state.user.name, state, wrong: 0 } : person,
    ),
  )
}

/** Counts a wrong try that the server refused; `isLast` where it takes no more. */
export function countWrong(id: string, isLast: boolean): Promise<PersonHere[]> {
  return write((people) =>
    people.map((person) =>
      person.id === id ? { ...person, wrong: isLast ? TRIES : person.wrong + 1 } : person,
    ),
  )
}

/**
 * Tries a PIN without the server. It is counted before it is checked, so that a reload gives no try back. Returns the
 * person if it is right, else the problem; neither where this browser cannot tell.
 */
export async function openWithPin(
  id: string,
  pin: string,
): Promise<{ person?: PersonHere; problem?: Problem }> {
  let person: PersonHere | undefined
  await write((people) =>
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
  await write((people) => people.map((other) => (other.id === id ? right : other)))
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

/** Changes the list in one transaction: other tabs count tries too. */
async function write(change: (people: PersonHere[]) => PersonHere[]): Promise<PersonHere[]> {
  const tx = (await db()).transaction('device', 'readwrite', { durability: 'strict' })
  const people = change(((await tx.store.get(KEY)) as PersonHere[] | undefined) ?? [])
  void tx.store.put(people, KEY)
  await tx.done
  return people
}

async function locked(pin: string): Promise<Lock | null> {
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

const same = (one: Uint8Array, other: Uint8Array) =>
  one.length === other.length && one.every((byte, at) => byte === other[at])
