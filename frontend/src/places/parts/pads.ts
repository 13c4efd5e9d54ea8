// What stands beside the list of a count, apart from the pad on which one counts.
export { default as LotPad } from './LotPad.svelte'
export { default as SoFar } from './SoFar.svelte'
export { default as UnknownPad } from './UnknownPad.svelte'
export { default as WhichPad } from './WhichPad.svelte'
