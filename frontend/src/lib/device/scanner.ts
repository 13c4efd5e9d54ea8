// Tells a scanner that types like a keyboard from a hand, at whatever pace it types.

const APART = 500 // milliseconds; a key that comes later begins another run
const QUICK = 35 // a scanner's pace; the quickest hand needs about 60
const LONG = 8 // digits: no count has as many
const LEAST = 4 // a shorter quick run could be a hurried hand

interface Key {
  key: string
  timeStamp: number
  repeat?: boolean
}

/** A run of keys that Enter or Tab has ended. */
export interface Run {
  typed: string
  /** It came at a scanner's pace. */
  quick: boolean
  /** It holds eight or more digits and nothing else. */
  long: boolean
  /** It is a code wherever the focus is: quick, long, or with a character that no key of the screen takes. */
  code: boolean
}

export class Runs {
  private typed = ''
  private quick = true
  private last = Number.NEGATIVE_INFINITY

  /** Whether this key begins a run. */
  begins({ key, timeStamp }: Key): boolean {
    return key.length === 1 && (!this.typed || timeStamp - this.last > APART)
  }

  /** Whether characters of a run came just before. */
  isRunning({ timeStamp }: Key): boolean {
    return this.typed !== '' && timeStamp - this.last <= APART
  }

  /** Takes the next key; answers the run that it ends. `taken` are the characters that keys of the screen take. */
  take(key: Key, taken: RegExp): Run | null {
    const begins = this.begins(key)
    const apart = key.timeStamp - this.last
    if (key.key === 'Shift' || key.key === 'AltGraph') return null
    if (key.key.length === 1 && !key.repeat) {
      this.typed = begins ? key.key : this.typed + key.key
      this.quick = begins || (this.quick && apart < QUICK)
      this.last = key.timeStamp
      return null
    }
    const ended = (key.key === 'Enter' || key.key === 'Tab') && apart <= APART ? this.typed : ''
    const quick = this.quick && apart < QUICK && ended.length >= LEAST
    this.typed = ''
    if (!ended) return null
    const long = ended.length >= LONG && /^\d+$/.test(ended)
    const foreign = [...ended].some((character) => !taken.test(character))
    return { typed: ended, quick, long, code: quick || long || foreign }
  }
}

/** The part of an open pad that the listener uses: how to restore its value, and the characters that its keys take. */
interface Held {
  taken: RegExp
  /** Keeps the value as it is now; answers how to put it back. */
  keep: () => () => void
}

const DIGITS = /\d/
let openPad: Held | null = null

/** Names the pad that takes keys now; answers how to take it away again. */
export function holdPad(pad: Held): () => void {
  openPad = pad
  return () => {
    if (openPad === pad) openPad = null
  }
}

export const takenKeys = () => openPad?.taken ?? DIGITS

/** Keeps what keys may change before the first of a run does: the pad's value and the field in focus. */
export function keepAll(target: EventTarget | null): () => void {
  const pad = openPad?.keep()
  const isField =
    target instanceof HTMLInputElement ||
    target instanceof HTMLTextAreaElement ||
    target instanceof HTMLSelectElement
  const before = isField ? target.value : ''
  return () => {
    pad?.()
    if (!isField || target.value === before) return
    target.value = before
    target.dispatchEvent(new Event('input', { bubbles: true }))
    target.dispatchEvent(new Event('change', { bubbles: true }))
  }
}
