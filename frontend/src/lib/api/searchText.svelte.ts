const PAUSE = 200 // milliseconds

/** Holds the text of a search field (`typed`), and the text that the server is asked for after a pause (`asked`). */
export class SearchText {
  typed = $state('')
  asked = $state('')

  constructor() {
    $effect(() => {
      const text = this.typed.trim()
      const wait = setTimeout(() => {
        this.asked = text
      }, PAUSE)
      return () => clearTimeout(wait)
    })
  }
}
