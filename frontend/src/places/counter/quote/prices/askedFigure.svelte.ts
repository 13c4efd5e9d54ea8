import { getContext, setContext } from 'svelte'

/** Which figure of the quote a person asks about; the sheet that answers stands once on the screen. */
export class Asking {
  key = $state<string | null>(null)
}

const HERE = Symbol('asking')

export function beginAsking(): Asking {
  return setContext(HERE, new Asking())
}

export function asking(): Asking {
  return getContext<Asking>(HERE)
}
