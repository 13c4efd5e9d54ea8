// Mixes with the front end's code: a JSON list of [circuit, measured] on standard input, a JSON list of {mix} or {no}
// on standard output. Run by test_coolant_phone.py.
import { answer, load } from './front_end.mjs'

const { bayMix } = await load('places/bay/coolant/mixWords')

await answer(([circuit, measured]) => bayMix(circuit, measured))
