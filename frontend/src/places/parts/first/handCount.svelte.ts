import { keepText, keptText } from '../../../lib/app/typedText'
import { type CountedBag, readBag, textOf } from './countedBags'

interface Typed {
  carton: string
  bag: string
  text: string
  bags: CountedBag[]
}

const EMPTY: Typed = { carton: '', bag: '', text: '', bags: [] }

/** Holds a count of a whole kit while it is typed, bag by bag. It survives a reload and a look at another screen. */
export class HandCount {
  typed = $state<Typed>(EMPTY)
  /** The line of the text that is no part number with a quantity; 0 if there is none. */
  wrong = $state(0)

  constructor(name: string) {
    const stored = keptText(name)
    this.typed = stored ? JSON.parse(stored) : structuredClone(EMPTY)
    $effect(() => keepText(name, JSON.stringify(this.typed)))
  }

  /** Puts the bag of the form on the list; the next bag is probably in the same carton. Returns whether it could. */
  put(): boolean {
    const { carton, bag, text, bags } = this.typed
    const { lines, wrong } = readBag(text)
    this.wrong = wrong
    if (wrong || !lines.length) return false
    this.typed = {
      carton,
      bag: '',
      text: '',
      bags: [...bags, { carton: carton.trim(), bag: bag.trim(), lines }],
    }
    return true
  }

  /** Takes a bag off the list and back into the form; what is in the form goes on the list first. */
  change(at: number): void {
    if (this.typed.text.trim() && !this.put()) return
    const taken = this.typed.bags[at]
    if (!taken) return
    const bags = this.typed.bags.filter((_, other) => other !== at)
    this.typed = { carton: taken.carton, bag: taken.bag, text: textOf(taken), bags }
  }

  clear(): void {
    this.typed = structuredClone(EMPTY)
  }
}
