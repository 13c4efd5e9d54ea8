import { ask, callFor } from './api/client'
import { clearCopies, recall, remember } from './db'

export type Role = 'advisor' | 'parts' | 'technician' | 'manager'

export interface ShopHere {
  slug: string
  name: string
  currency: string
  exponent: number
  zone: string
  units: string
  role: Role
  member: string
}

interface Said {
  signed_in: boolean
  user: { name: string; email: string } | null
  shops: ShopHere[]
}

const NOBODY: Said = { signed_in: false, user: null, shops: [] }
const KEY = 'session'

class Session {
  /** False until the server, or the copy of what it last said, has told who is here. */
  known = $state(false)
  said = $state.raw<Said>(NOBODY)
  /** The sign-in ended under the person's hands: ask again, and keep the sheet. */
  ended = $state(false)
  slug = $state('')

  get signedIn(): boolean {
    return this.said.signed_in
  }
  get user() {
    return this.said.user
  }
  get shops(): ShopHere[] {
    return this.said.shops
  }
  get shop(): ShopHere | undefined {
    return this.said.shops.find((shop) => shop.slug === this.slug)
  }
  get role(): Role | undefined {
    return this.shop?.role
  }

  /** Asks who is here; without an answer, whoever it last was. */
  async open(): Promise<void> {
    const kept = await recall<Said>(KEY).catch(() => undefined)
    if (kept) this.take(kept)
    const answer = await ask({ method: 'get', path: '/api/v1/session' })
    if (answer.ok) await this.keep(answer.data as Said)
    this.known = true
  }

  async signIn(email: string, password: string) {
    await ask({ method: 'get', path: '/api/v1/session' }) // brings the CSRF cookie of a fresh browser
    const answer = await ask({ method: 'post', path: '/api/v1/session', body: { email, password } })
    if (answer.ok) {
      this.ended = false
      await this.keep(answer.data as Said)
    }
    return answer
  }

  /** Signs out and forgets this person's copies; counts that wait stay for them. */
  async signOut(): Promise<void> {
    const { user } = this
    await ask({ method: 'delete', path: '/api/v1/session' })
    if (user) await clearCopies(user.email)
    await this.keep(NOBODY)
  }

  enter(slug: string): void {
    this.slug = slug
    callFor(slug, () => {
      if (this.signedIn) this.ended = true
    })
  }

  /** May this person see costs and margins? The server decides; this only leaves the question out. */
  get seesCosts(): boolean {
    return this.role === 'advisor' || this.role === 'manager'
  }

  /** Does this person make quotes? As above. */
  get quotes(): boolean {
    return this.seesCosts
  }

  private take(said: Said): void {
    this.said = said
    this.known = true
  }

  private async keep(said: Said): Promise<void> {
    this.take(said)
    await remember(KEY, said).catch(() => {})
  }
}

export const session = new Session()
