// The panels next to a pull list that are loaded when first opened. The number pad is not one of them.
export { default as BoxChoicePad } from '../count/BoxChoicePad.svelte'
export { default as BoxPad } from '../count/BoxPad.svelte'
export { default as UnknownCodePad } from '../count/UnknownCodePad.svelte'
export { default as CountTotals } from './CountTotals.svelte'
