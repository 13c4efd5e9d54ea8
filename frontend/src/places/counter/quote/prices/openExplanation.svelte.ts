import { getContext, setContext } from 'svelte'

/** The figure whose explanation is open. The screen has one explanation for all figures. */
export class OpenExplanation {
  key = $state<string | null>(null)
}

const HERE = Symbol('openExplanation')

export function setOpenExplanation(): OpenExplanation {
  return setContext(HERE, new OpenExplanation())
}

export function getOpenExplanation(): OpenExplanation {
  return getContext<OpenExplanation>(HERE)
}
