// A Vite plugin that compiles catalogues of sentences in Fluent to modules: a sentence without a choice stays text
// with {facts} in it, a sentence with a choice becomes a function. The browser needs no Fluent runtime.
// `shop/words/parsing.py` accepts the same part of Fluent: text, quoted text, facts, and choices by a fact.

import { readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { basename } from 'node:path'
import { type Entry, type Expression, type Message, type Pattern, parse, type Variant } from '@fluent/syntax'
import type { Plugin } from 'vite'

type Fail = (why: string) => never

/** The plural categories of CLDR without "other", which may also be a code. */
const CATEGORIES = /^(zero|one|two|few|many)$/

/** Returns the plugin. `folder` holds the catalogues of our own language; the types are made from them. */
export function fluent(folder: string): Plugin {
  return {
    name: 'fluent',
    buildStart() {
      if (!process.env.VITEST) writeFileSync(`${folder}/../words.d.ts`, types(folder))
    },
    transform: {
      filter: { id: /\.ftl$/ },
      handler(source, id) {
        return { code: compile(source, (why) => this.error(`${basename(id)}: ${why}`)), map: null }
      },
    },
  }
}

/** Compiles a catalogue to a module whose default export maps keys to sentences. */
export function compile(source: string, fail: Fail = stop): string {
  const rows = messages(source, fail).map(([key, value]) => `${JSON.stringify(key)}:${sentence(value, fail)}`)
  return `export default {${rows.join(',\n')}}`
}

function stop(why: string): never {
  throw new Error(why)
}

function messages(source: string, fail: Fail): [key: string, value: Pattern][] {
  const found = new Map<string, Pattern>()
  for (const entry of parse(source, { withSpans: false }).body as Entry[]) {
    if (entry.type === 'Junk') fail(`${entry.annotations[0]?.message}: ${entry.content.slice(0, 60)}`)
    if (entry.type === 'Term') fail('only messages are sentences')
    if (entry.type !== 'Message') continue
    const { id, value, attributes } = entry as Message
    const key = id.name.replaceAll('-', '.')
    if (!value || attributes.length)
      return fail(`${key}: only messages with a value and without attributes are sentences`)
    if (found.has(key)) fail(`${key} stands twice`)
    found.set(key, value)
  }
  return [...found]
}

function sentence(pattern: Pattern, fail: Fail): string {
  const text = plain(pattern)
  return text === null ? `(f,p,w)=>${code(pattern, fail)}` : JSON.stringify(text)
}

/** Returns the sentence as text with {facts}; null if it has a choice or a literal brace. */
function plain(pattern: Pattern): string | null {
  let text = ''
  for (const part of pattern.elements) {
    const inner = part.type === 'Placeable' ? (part.expression as Expression) : null
    if (part.type === 'TextElement') text += part.value
    else if (inner?.type === 'VariableReference') text += `{${inner.id.name}}`
    else if (inner?.type === 'StringLiteral' && !/[{}]/.test(inner.value)) text += inner.parse().value
    else return null
  }
  return text
}

function code(pattern: Pattern, fail: Fail): string {
  const parts = pattern.elements.map((part) =>
    part.type === 'TextElement'
      ? JSON.stringify(part.value)
      : expression(part.expression as Expression, fail),
  )
  return parts.join('+') || '""'
}

function expression(it: Expression, fail: Fail): string {
  if (it.type === 'StringLiteral') return JSON.stringify(it.parse().value)
  if (it.type === 'VariableReference') return `w(f.${it.id.name})`
  if (it.type === 'SelectExpression' && it.selector.type === 'VariableReference')
    return choice(`f.${it.selector.id.name}`, it.variants, fail)
  return fail(`a ${it.type} cannot stand in a sentence`)
}

/** Compiles a choice. It tries exact numbers first, then the category of a number or a code. */
function choice(fact: string, variants: Variant[], fail: Fail): string {
  const exact = (variant: Variant) => variant.key.type === 'NumberLiteral'
  const counts = variants.some((variant) => CATEGORIES.test(nameOf(variant)))
  const tests = variants
    .filter((variant) => !variant.default)
    .sort((one, other) => Number(exact(other)) - Number(exact(one)))
    .map((variant) => {
      const test = exact(variant)
        ? `${fact}==${nameOf(variant)}`
        : `${counts ? `p(${fact})` : fact}==${JSON.stringify(nameOf(variant))}`
      return `${test}?${code(variant.value, fail)}:`
    })
  const other = variants.find((variant) => variant.default) as Variant
  return `(${tests.join('')}${code(other.value, fail)})`
}

function nameOf({ key }: Variant): string {
  return key.type === 'Identifier' ? key.name : key.value
}

/** Returns TypeScript that declares each sentence with its facts. */
export function types(folder: string): string {
  const rows = readdirSync(folder)
    .sort()
    .flatMap((name) => messages(readFileSync(`${folder}/${name}`, 'utf8'), (why) => stop(`${name}: ${why}`)))
    .map(([key, value]) => {
      const facts = [...factsOf(value)].map(([name, kind]) => `${name}: ${kind}`).join('; ')
      return `  '${key}': ${facts ? `{ ${facts} }` : 'null'}\n`
    })
  return `// Key -> the facts that its sentence asks for. Written by build/fluent.ts with every build.\nexport interface Words {\n${rows.join('')}}\n`
}

function factsOf(pattern: Pattern, found = new Map<string, string>()): Map<string, string> {
  for (const part of pattern.elements) {
    const inner = part.type === 'Placeable' ? (part.expression as Expression) : null
    if (inner?.type === 'VariableReference' && !found.has(inner.id.name))
      found.set(inner.id.name, 'string | number')
    if (inner?.type === 'SelectExpression' && inner.selector.type === 'VariableReference') {
      const counts = inner.variants.some(
        (variant) => variant.key.type === 'NumberLiteral' || CATEGORIES.test(nameOf(variant)),
      )
      found.set(inner.selector.id.name, counts ? 'number' : 'string')
      for (const variant of inner.variants) factsOf(variant.value, found)
    }
  }
  return found
}
