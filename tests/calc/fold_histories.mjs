// Folds histories with the front end's code: a JSON list of histories on standard input, a JSON list of
// {lines, digest} on standard output. Run by test_counting.py.
import { answer, load } from './front_end.mjs'

const { fold, digest } = await load('calc/counting')

await answer(async (events) => {
  const tallies = fold(events)
  return { lines: Object.fromEntries(tallies), digest: await digest(tallies) }
})
