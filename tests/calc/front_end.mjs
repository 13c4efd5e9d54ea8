// The front end's own calculations, as Node can import them: `load('counting')` reads frontend/src/calc/counting.ts
// and what it imports from beside it. `answer` reads a JSON list on standard input and writes the list of answers.
import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'

const frontend = new URL('../../frontend/', import.meta.url)
const typescript = createRequire(new URL('package.json', frontend))('typescript')
const compilerOptions = { module: typescript.ModuleKind.ESNext, target: typescript.ScriptTarget.ES2022 }

const addresses = new Map() // one module is one address, so that its classes are the same to all who import it

function addressOf(name) {
  if (!addresses.has(name)) {
    const source = readFileSync(new URL(`src/calc/${name}.ts`, frontend), 'utf8')
    const { outputText } = typescript.transpileModule(source, { compilerOptions })
    const linked = outputText.replace(/from '\.\/(\w+)'/g, (_, beside) => `from '${addressOf(beside)}'`)
    addresses.set(name, `data:text/javascript,${encodeURIComponent(linked).replaceAll("'", '%27')}`)
  }
  return addresses.get(name)
}

export const load = (name) => import(addressOf(name))

export async function answer(each) {
  const asked = JSON.parse(readFileSync(0, 'utf8'))
  process.stdout.write(JSON.stringify(await Promise.all(asked.map(each))))
}
