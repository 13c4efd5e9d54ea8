// Tells a scanner that types like a keyboard from a hand: its keys come a few milliseconds apart and end with Enter.

const APART = 35 // milliseconds; the quickest hand needs about 60
const LEAST = 4 // a shorter code could be a hurried hand

interface Typed {
  key: string
  timeStamp: number
}

/** Watches the keys; `take` answers with the code, and the value from before it, once a scanner has finished. */
export class Burst<Value> {
  private keys = ''
  private last = Number.NEGATIVE_INFINITY
  private before: Value | undefined

  take({ key, timeStamp }: Typed, value: Value): { code: string; before: Value } | null {
    const quick = timeStamp - this.last < APART
    this.last = timeStamp
    if (key === 'Enter') {
      const code = quick ? this.keys : ''
      const before = this.before as Value
      this.keys = ''
      return code.length >= LEAST ? { code, before } : null
    }
    if (key.length !== 1) return null
    if (!quick || !this.keys) {
      this.keys = ''
      this.before = value
    }
    this.keys += key
    return null
  }
}
