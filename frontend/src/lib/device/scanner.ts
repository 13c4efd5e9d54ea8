// Tells a keyboard-wedge scanner from a person by the pace and content of the keys.

const APART = 500 // milliseconds; a later key begins another run
const QUICK = 35 // milliseconds between a scanner's keys; the quickest hand needs about 60
const LONG = 8 // digits: no count has as many
const LEAST = 4 // characters: a shorter quick run could be typed in a hurry

interface Key {
  key: string
  timeStamp: number
  repeat?: boolean
}

/** A run of keys ended by Enter or Tab. */
export interface Run {
  typed: string
  /** Whether it came at a scanner's pace. */
  quick: boolean
  /** Whether it consists of eight or more digits. */
  long: boolean
  /** Whether it is a code wherever the focus is: quick, long, or with a character that no key of the pad has. */
  code: boolean
}

export class Runs {
  private typed = ''
  private quick = true
  private last = Number.NEGATIVE_INFINITY

  /** Returns whether this key begins a run. */
  begins({ key, timeStamp }: Key): boolean {
    return key.length === 1 && (!this.typed || timeStamp - this.last > APART)
  }

  /** Returns whether characters of a run came just before. */
  isRunning({ timeStamp }: Key): boolean {
    return this.typed !== '' && timeStamp - this.last <= APART
  }

  /** Adds the next key. Returns the run that it ends, or null. `taken` matches the characters of the pad's keys. */
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

/** The part of an open pad that the scanner's listener uses. */
interface PadInput {
  taken: RegExp
  /** Saves the present value. Returns a function that restores it. */
  keep: () => () => void
}

const DIGITS = /\d/
let openPad: PadInput | null = null

/** Registers the pad that takes keys now. Returns a function that removes it. */
export function registerPad(pad: PadInput): () => void {
  openPad = pad
  return () => {
    if (openPad === pad) openPad = null
  }
}

export const takenKeys = () => openPad?.taken ?? DIGITS

/**
 * Saves the pad's value and the focused field before the first key of a run. Returns a function that restores them.
 */
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
