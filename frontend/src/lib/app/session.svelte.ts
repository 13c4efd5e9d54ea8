import { ask, callFor } from '../api/client'
import type { Shape } from '../api/types'
import { clearCopies, clearLogs, recall, remember } from '../device/database'
import { setLanguage } from '../text/language'

export type Role = Shape<'MemberRole'>
export type ShopHere = Shape<'OwnShopOut'>
type SessionState = Shape<'SessionOut'>

const NOBODY: SessionState = { signed_in: false, user: null, shops: [], to_open: false, mail_is_sent: false }
const KEY = 'session'
const OWED = 'sign-out owed'
const URL = '/api/v1/session'
const FACTOR = '/api/v1/second-factor'
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

  /** Reads who is signed in; without an answer, uses the kept copy. Sends a pending sign-out first. */
  async open(): Promise<void> {
    const { turn } = this
    const [copy, owed] = await Promise.all([recall<SessionState>(KEY), recall<boolean>(OWED)]).catch(() => [])
    if (turn !== this.turn) return
    this.owed = owed === true
    if (this.owed) this.take(NOBODY)
    else if (copy) this.take(copy)
    if (await this.settle()) {
      const answer = await ask({ method: 'get', path: URL })
      if (answer.ok && turn === this.turn) await this.keep(answer.data)
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
    if (answer.ok) {
      this.turn++
      this.ended = false
      await this.owe(false) // the server ends the previous session when it begins a new one
      await this.keep(answer.data)
      others?.postMessage('changed')
    }
    return answer
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

  /** Reads what the link of an invitation or of a new password is for. */
  async entry(token: string) {
    await ask({ method: 'get', path: URL }) // brings the CSRF cookie to a fresh browser
    return ask({ method: 'post', path: '/api/v1/entry/reading', body: { token } })
  }

  /** Sets name and password by such a link. The person is not signed in by it. */
  comeIn(body: Shape<'EntryInRequest'>) {
    return ask({ method: 'post', path: '/api/v1/entry', body })
  }

  /** Asks for an e-mail with a link for a new password. The answer never tells whether the e-mail is known. */
  forgotten(email: string) {
    return ask({ method: 'post', path: '/api/v1/forgotten', body: { email } })
  }

  /** Reads the choices of the form that opens the first shop. */
  openingChoices() {
    return ask({ method: 'get', path: '/api/v1/opening' })
  }

  /** Signs out here at once and on the server at the next contact. Clears the copies; queued counts stay. */
  async signOut(): Promise<void> {
    const { email } = this.user ?? {}
    this.turn++
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

  /** Reads the list of the person's sign-ins. */
  signIns() {
    return ask({ method: 'get', path: '/api/v1/sessions' })
  }

  /** Ends one of the person's sign-ins on another device. */
  endSignIn(id: string) {
    return ask({ method: 'delete', path: '/api/v1/sessions/{id}', at: { id } })
  }

  /** Sets a new password; the server ends the sign-ins on other devices. */
  changePassword(current_password: string, new_password: string) {
    return ask({ method: 'put', path: `${URL}/password`, body: { current_password, new_password } })
  }

  /** Reads whether the person's sign-in has a second factor. */
  secondFactor() {
    return ask({ method: 'get', path: FACTOR })
  }

  /** Makes a secret for an authenticator app; it counts once `confirmFactor` has sent a code of it. */
  beginFactor(password: string) {
    return ask({ method: 'post', path: FACTOR, body: { password } })
  }

  /** Switches the second factor on, and returns the recovery codes. */
  async confirmFactor(code: string) {
    const answer = await ask({ method: 'post', path: `${FACTOR}/confirmation`, body: { code } })
    if (answer.ok) await this.open()
    return answer
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
    this.telling ??= this.tell().finally(() => {
      this.telling = undefined
    })
    return this.telling
  }

  private async tell(): Promise<boolean> {
    const tell = () => ask({ method: 'delete', path: URL })
    let answer = await tell()
    if (!answer.ok && answer.problem.status === 403) {
      await ask({ method: 'get', path: URL }) // the CSRF cookie was missing
      answer = await tell()
    }
    if (answer.ok) await this.owe(false)
    return answer.ok
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
    if (!this.signedIn || this.ended || this.doubting) return
    this.doubting = true
    const answer = await ask({ method: 'get', path: URL })
    this.doubting = false
    if (answer.ok && answer.data.signed_in) return
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
