// The people who have set a PIN on this phone: their names, and how each is let in while there is no signal. The
// server decides whenever it answers. The phone keeps a salted, slow hash of the PIN and counts wrong tries itself.
import type { Shape } from '../api/types'
import { db, recall } from '../device/database'

type SessionState = Shape<'SessionOut'>

/** A hash of a PIN (PBKDF2, SHA-256). */
export interface Lock {
  salt: Uint8Array<ArrayBuffer>
  hash: Uint8Array<ArrayBuffer>
  rounds: number
}

/** A person on this phone. `id` is the PIN's, `state` the server's last answer about the person who is let in. */
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

export async function peopleHere(): Promise<PersonHere[]> {
  return (await recall<PersonHere[]>(KEY)) ?? []
}

/** Keeps a person whose PIN the server has just taken, in place of an earlier PIN of theirs. */
export function addPerson(
  { id, ends_at }: Shape<'PinOut'>,
  lock: Lock | null,
  state: SessionState,
): Promise<PersonHere[]> {
  const { name = '', email = '' } = state.user ?? {}
  const person = { id, name, email, state, lock, wrong: 0, ends_at }
  return writePeople((people) => [...people.filter((other) => other.email !== email), person])
}

/** Removes the people whose PINs have ended; (those who stay, those who go). */
export async function keepPeople(
  ids: readonly string[],
): Promise<{ stay: PersonHere[]; gone: PersonHere[] }> {
  const before = await peopleHere()
  const gone = before.filter(({ id }) => !ids.includes(id))
  return {
    stay: gone.length ? await writePeople((people) => people.filter(({ id }) => ids.includes(id))) : before,
    gone,
  }
}

/** Stores the server's state of a person whom it has let in, and forgets their wrong tries. */
export function updatePerson(state: SessionState): Promise<PersonHere[]> {
  return writePeople((people) =>
    people.map((person) =>
      person.email === state.user?.email ? { ...person, name: state.user.name, state, wrong: 0 } : person,
    ),
  )
}

/** Counts a wrong try that the server refused; `isLast` where it takes no more. */
export function countWrong(id: string, isLast: boolean): Promise<PersonHere[]> {
  return writePeople((people) =>
    people.map((person) =>
      person.id === id ? { ...person, wrong: isLast ? TRIES : person.wrong + 1 } : person,
    ),
  )
}

/** Changes the list in one transaction: other tabs count tries too. */
export async function writePeople(change: (people: PersonHere[]) => PersonHere[]): Promise<PersonHere[]> {
  const tx = (await db()).transaction('device', 'readwrite', { durability: 'strict' })
  const people = change(((await tx.store.get(KEY)) as PersonHere[] | undefined) ?? [])
  void tx.store.put(people, KEY)
  await tx.done
  return people
}
