// Weighs with the front end's code: a JSON list of weighings on standard input, a JSON list of results, or
// {error}, on standard output. Run by test_weighing.py.
import { answer, load } from './front_end.mjs'

const { weigh } = await load('calc/weighing')

await answer((weighing) => {
  try {
    return weigh(weighing)
  } catch (refusal) {
    return { error: refusal.message }
  }
})
