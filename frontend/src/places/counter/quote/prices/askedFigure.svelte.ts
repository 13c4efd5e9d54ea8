import { getContext, setContext } from 'svelte'

/** The figure whose explanation is open. The screen has one explanation for all figures. */
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
