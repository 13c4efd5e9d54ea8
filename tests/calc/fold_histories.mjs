// Folds histories with the front end's code: a JSON list of histories on standard input, a JSON list of
// {lines, digest} on standard output. Run by test_counting.py.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

const frontend = new URL('../../frontend/', import.meta.url)
const typescript = createRequire(new URL('package.json', frontend))('typescript')
const source = readFileSync(new URL('src/calc/counting.ts', frontend), 'utf8')
const { outputText } = typescript.transpileModule(source, {
  compilerOptions: { module: typescript.ModuleKind.ESNext, target: typescript.ScriptTarget.ES2022 },
})
const { fold, digest } = await import(`data:text/javascript,${encodeURIComponent(outputText)}`)

const histories = JSON.parse(readFileSync(0, 'utf8'))
const folded = histories.map((events) => fold(events))
const digests = await Promise.all(folded.map(digest))
const answers = folded.map((tallies, at) => ({ lines: Object.fromEntries(tallies), digest: digests[at] }))
process.stdout.write(JSON.stringify(answers))
