import { type Answer, ask, askFor, callFor, type Problem } from '../api/client'
import type { Shape } from '../api/types'
import { alone } from '../device/alone'
import { clearCopies, clearLogs, recall, remember } from '../device/database'
import { setLanguage } from '../text/language'
import { addPerson, countWrong, keepPeople, type PersonHere, peopleHere, updatePerson } from './pins'
import { forgetTypedText } from './typedText'

export type Role = Shape<'MemberRole'>
type ShopHere = Shape<'OwnShopOut'>
type SessionState = Shape<'SessionOut'>

const NOBODY: SessionState = {
  signed_in: false,
  user: null,
  shops: [],
  pins: [],
  to_open: false,
  mail_is_sent: false,
}
const KEY = 'session'
const OWED = 'sign-out owed'
const URL = '/api/v1/session'
const FACTOR = '/api/v1/second-factor'
const PINS = '/api/v1/pins'
const AGAIN = 10_000

export class Session {
  /** False until the server, or a kept copy of its last answer, says who is signed in. */
  known = $state(false)
  state = $state.raw<SessionState>(NOBODY)
  /** True after the server ended the sign-in: the screen stays and the app asks for the password. */
  ended = $state(false)
  /** True after a sign-out without signal: the server must hear of it before any other request. */
  owed = $state(false)
  slug = $state('')
  /** The people who have set a PIN on this device. */
  people = $state.raw<PersonHere[]>([])
  /** The PIN of a person who was let in without signal, until the server has checked it. */
  private typed: { id: string; pin: string } | undefined
  private turn = 0 // an answer to a request from before a sign-in or sign-out is out of date
  private telling: Promise<boolean> | undefined
  private doubting = false

  get signedIn(): boolean {
    return this.state.signed_in
  }
  get user() {
    return this.state.user
  }
  get shops(): ShopHere[] {
    return this.state.shops
  }
  get shop(): ShopHere | undefined {
    return this.state.shops.find((shop) => shop.slug === this.slug)
  }
  get role(): Role | undefined {
    return this.shop?.role
  }

  constructor() {
    askFor(
      () => this.settle(),
      (slug) => this.shops.find((shop) => shop.slug === slug)?.member,
    )
  }

  /** Reads who is signed in; without an answer, uses the kept copy. Sends a pending sign-out first. */
  async open(): Promise<void> {
    const { turn } = this
    const [copy, owed, people] = await Promise.all([
      recall<SessionState>(KEY),
      recall<boolean>(OWED),
      peopleHere(),
    ]).catch(() => [])
    if (turn !== this.turn) return
    this.people = people ?? []
    this.owed = owed === true
    if (this.owed) {
      this.typed = undefined
      this.take(NOBODY)
    }
    if (!this.owed && copy) this.take(copy)
    if (await this.settle()) {
      const answer = await ask({ method: 'get', path: URL })
      if (answer.ok && turn === this.turn) {
        await this.keep(answer.data)
        await this.keepPins(answer.data.pins)
      }
    }
    this.known = true
  }

  /** Signs in. `code` is of the authenticator app, or a recovery code, where the server asks for one. */
  async signIn(email: string, password: string, code?: string) {
    await this.settle()
    await ask({ method: 'get', path: URL }) // brings the CSRF cookie to a fresh browser
    const answer = await ask({
      method: 'post',
      path: URL,
      body: { email, password, ...(code ? { code } : {}) },
    })
    if (answer.ok) await this.begun(answer.data)
    return answer
  }

  /**
   * Changes the person on this device by PIN: by the server, or without signal by what this device keeps. Returns the
   * problem, or null once the person is in.
   */
  async change(id: string, pin: string): Promise<Problem | null> {
    await this.settle()
    const answer = await this.sendPin(id, pin)
    if (answer.ok) {
      await this.begun(answer.data)
      return null
    }
    const { problem } = answer
    if (problem.status === 0) {
      const { openWithPin } = await import('./pinLock')
      const opened = await openWithPin(id, pin)
      this.people = await peopleHere()
      if (opened.person) await this.letIn(opened.person, pin)
      return opened.person ? null : (opened.problem ?? problem)
    }
    await this.refused(id, problem)
    return problem
  }

  /** Sets this person's PIN on this device. */
  async setPin(pin: string, password: string) {
    const { state } = this // a sign-out may come before the answer
    const answer = await ask({ method: 'post', path: PINS, body: { pin, password } })
    if (answer.ok) {
      const { locked } = await import('./pinLock')
      this.people = await addPerson(answer.data, await locked(pin), state)
    }
    return answer
  }

  /** Ends one of this person's PINs, on this device or another. */
  async endPin(id: string) {
    const answer = await ask({ method: 'delete', path: '/api/v1/pins/{id}', at: { id } })
    if (answer.ok || answer.problem.status === 404) await this.drop(id)
    return answer
  }

  private sendPin(id: string, pin: string): Promise<Answer<SessionState>> {
    return this.withToken(() => ask({ method: 'post', path: `${URL}/pin`, body: { id, pin } }))
  }

  /** Sends again with a fresh CSRF cookie if that was missing. */
  private async withToken<T>(send: () => Promise<Answer<T>>): Promise<Answer<T>> {
    const answer = await send()
    if (answer.ok || answer.problem.status !== 403) return answer
    await ask({ method: 'get', path: URL })
    return send()
  }

  /** Shows a person whom the server let in, in place of the person before. */
  private async begun(answer: SessionState): Promise<void> {
    const before = this.user?.email
    this.turn++
    this.ended = false
    this.typed = undefined
    await this.owe(false) // the server ends the previous session when it begins a new one
    await this.keep(answer)
    await this.keepPins(answer.pins)
    this.people = await updatePerson(answer).catch(() => [])
    if (before !== answer.user?.email) await this.leave(before)
    others?.postMessage('changed')
  }

  /**
   * Shows a person without the server. The server's sign-in is still the earlier person's, so it is ended before any
   * other request. Nothing of this outlives the page: after a reload the PIN is asked for again.
   */
  private async letIn(person: PersonHere, pin: string): Promise<void> {
    const before = this.user?.email
    this.turn++
    this.typed = { id: person.id, pin }
    const owing = this.owe(true)
    this.ended = false
    this.take(person.state)
    await owing
    await remember(KEY, NOBODY).catch(() => {})
    if (before !== person.email) await this.leave(before)
    others?.postMessage('changed')
  }

  /** Clears the copies of the person who leaves, unless their PIN opens them again. */
  private async leave(email: string | undefined): Promise<void> {
    forgetTypedText()
    if (email && !this.people.some((person) => person.email === email)) await this.forget(email)
  }

  /** Follows a PIN that the server refused. */
  private async refused(id: string, { type }: Problem): Promise<void> {
    if (type === '/problems/pin-ended') await this.drop(id)
    else if (type === '/problems/wrong-pin') this.people = await countWrong(id, false)
    else if (type === '/problems/pin-used-up') this.people = await countWrong(id, true)
  }

  /** Removes a person whose PIN has ended from this device, with what was copied for them. */
  private async drop(id: string): Promise<void> {
    await this.keepPins((await peopleHere()).map((person) => person.id).filter((other) => other !== id))
  }

  private async keepPins(ids: readonly string[]): Promise<void> {
    const { stay, gone } = await keepPeople(ids).catch(() => ({ stay: [], gone: [] }))
    this.people = stay
    const here = this.ended ? undefined : this.user?.email
    for (const { email } of gone) if (email !== here) await this.forget(email)
  }

  /** Opens the first shop, and signs in its first manager. */
  async openShop(body: Shape<'OpeningInRequest'>) {
    await ask({ method: 'get', path: URL }) // brings the CSRF cookie to a fresh browser
    const answer = await ask({ method: 'post', path: '/api/v1/opening', body })
    if (answer.ok) {
      this.turn++
      await this.keep(answer.data)
    }
    return answer
  }

  /** Signs out here at once and on the server at the next contact. Clears the copies; queued counts stay. */
  async signOut(): Promise<void> {
    const { email } = this.user ?? {}
    this.turn++
    this.typed = undefined
    this.take(NOBODY)
    await this.owe(true)
    await this.keep(NOBODY)
    await this.forget(email)
    others?.postMessage('changed')
    await this.settle()
  }

  /** Ends the person's sign-ins on every device. Does nothing without signal. */
  async signOutEverywhere() {
    const answer = await ask({ method: 'delete', path: '/api/v1/sessions' })
    if (answer.ok) await this.signOut()
    return answer
  }

  /** Sets a new password; the server ends the sign-ins on other devices. */
  async changePassword(current_password: string, new_password: string) {
    const answer = await ask({
      method: 'put',
      path: `${URL}/password`,
      body: { current_password, new_password },
    })
    if (answer.ok) await this.open() // the PINs have ended
    return answer
  }

  /**
   * Switches the second factor on, and returns the recovery codes. The session is opened again once they are written
   * down: a person whose workshop asks for a second factor is then led away from the page that shows them.
   */
  confirmFactor(code: string) {
    return ask({ method: 'post', path: `${FACTOR}/confirmation`, body: { code } })
  }

  /** Switches the second factor off. */
  async endFactor(password: string) {
    const answer = await ask({ method: 'post', path: `${FACTOR}/off`, body: { password } })
    if (answer.ok) await this.open()
    return answer
  }

  /** Sends a pending sign-out. Returns whether none is pending any more. */
  settle(): Promise<boolean> {
    if (!this.owed) return Promise.resolve(true)
    this.telling ??= alone('session', () => this.tell()).finally(() => {
      this.telling = undefined
    })
    return this.telling
  }

  private async tell(): Promise<boolean> {
    const { turn } = this
    if ((await recall<boolean>(OWED).catch(() => true)) !== false) {
      const answer = await this.withToken(() => ask({ method: 'delete', path: URL }))
      if (!answer.ok) return false
    } // else another tab has told the server
    if (turn !== this.turn) return !this.owed
    if (this.typed) return this.prove(this.typed)
    await this.owe(false)
    return true
  }

  /** Sends the PIN of a person who was let in without signal. */
  private async prove({ id, pin }: { id: string; pin: string }): Promise<boolean> {
    const answer = await this.sendPin(id, pin)
    if (answer.ok) {
      await this.begun(answer.data)
      return true
    }
    if (answer.problem.status !== 401) return false
    this.typed = undefined
    await this.owe(false)
    await this.refused(id, answer.problem)
    this.close()
    return false
  }

  private async owe(owed: boolean): Promise<void> {
    this.owed = owed
    await remember(OWED, owed).catch(() => {})
  }

  /** Clears the copies of the server's answers. The queue and the refused counts stay: they are work. */
  private async forget(email: string | undefined): Promise<void> {
    await Promise.all([email && clearCopies(email), clearLogs()]).catch(() => {})
  }

  /**
   * Ends the sign-in after a 401: its data must not be readable here, not even after a restart without signal. Asks
   * the server first, because a new password changes the cookie and requests sent just before it fail too.
   */
  private async end(): Promise<void> {
    if (!this.signedIn || this.ended || this.doubting || this.owed) return
    this.doubting = true
    const { turn } = this
    const answer = await ask({ method: 'get', path: URL })
    this.doubting = false
    if (turn !== this.turn) return // somebody signed in or out meanwhile
    if (answer.ok && answer.data.signed_in) {
      if (answer.data.user?.email !== this.user?.email) await this.begun(answer.data) // in another tab
      return
    }
    this.close()
  }

  private close(): void {
    this.ended = true
    void this.forget(this.user?.email)
    void remember(KEY, NOBODY).catch(() => {})
  }

  enter(slug: string): void {
    this.slug = slug
    setLanguage(this.shop?.language)
    callFor(slug, () => void this.end())
  }

  /** Returns whether this person may see costs and margins. Only hides them; the server decides. */
  get seesCosts(): boolean {
    return this.role === 'advisor' || this.role === 'manager'
  }

  /** Returns whether this person makes quotes. Only hides the screens; the server decides. */
  get quotes(): boolean {
    return this.seesCosts
  }

  private take(answer: SessionState): void {
    this.state = answer
    this.known = true
    setLanguage(this.shop?.language)
  }

  private async keep(answer: SessionState): Promise<void> {
    this.take(answer)
    await remember(KEY, answer).catch(() => {})
  }
}

export const session = new Session()

let others: BroadcastChannel | undefined

/** Sends a pending sign-out as soon as there is signal, and follows sign-ins and sign-outs in other tabs. */
export function watchSession(): void {
  const settle = () => void session.settle()
  addEventListener('online', settle)
  document.addEventListener('visibilitychange', settle)
  setInterval(settle, AGAIN)
  others = new BroadcastChannel('session')
  others.onmessage = () => void session.open()
}
