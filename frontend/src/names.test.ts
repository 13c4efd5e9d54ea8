// Checks that variables, parameters and the values of template blocks have nouns as names.
import { readdirSync, readFileSync } from 'node:fs'
import { parse } from 'svelte/compiler'
import { expect, test } from 'vitest'

type Node = { readonly type: string; readonly [key: string]: unknown }

const WORDS =
  'asked each found given got held kept known made mine one ours said shown theirs there told wanted'
const VAGUE = new Set(WORDS.split(' '))
// Only a file with such a word outside comments, strings and properties is parsed.
const CANDIDATE = new RegExp(`(?<![#/.\\w'-])(?:${WORDS.replaceAll(' ', '|')})(?![\\w'-])`)
const COMMENT = /^\s*(?:\/\/|\*|\/\*).*$|\s\/\/ .*$/gm

const isNode = (value: unknown): value is Node =>
  typeof value === 'object' && value !== null && typeof (value as Node).type === 'string'

/** Returns the nodes of a value of the syntax tree. */
function children(value: unknown): Node[] {
  if (Array.isArray(value)) return value.flatMap((item) => (isNode(item) ? [item] : children(item)))
  return isNode(value) ? [value] : []
}

/** Returns the names that a pattern binds. */
function bound(pattern: unknown): string[] {
  if (!isNode(pattern)) return []
  switch (pattern.type) {
    case 'Identifier':
      return [pattern.name as string]
    case 'ObjectPattern':
      return children(pattern.properties).flatMap((property) => bound(property.value ?? property))
    case 'ArrayPattern':
      return children(pattern.elements).flatMap(bound)
    case 'AssignmentPattern':
      return bound(pattern.left)
    case 'RestElement':
      return bound(pattern.argument)
    case 'TSParameterProperty':
      return bound(pattern.parameter)
    default:
      return []
  }
}

/** Returns the patterns of a node that bind names: declarations, parameters and values of template blocks. */
const patternsOf = ({ type, id, params, parameters, context, value, param }: Node): unknown[] => {
  if (type === 'VariableDeclarator') return [id]
  if (/Function/.test(type)) return children(params)
  if (type === 'SnippetBlock') return children(parameters)
  if (type === 'EachBlock') return [context]
  if (type === 'AwaitBlock') return [value]
  return type === 'CatchClause' ? [param] : []
}

function vagueNames(tree: unknown): string[] {
  return children(tree).flatMap((node) => [
    ...patternsOf(node)
      .flatMap(bound)
      .filter((name) => VAGUE.has(name)),
    ...Object.values(node).flatMap(vagueNames),
  ])
}

const treeOf = (source: string) => parse(source, { modern: true }) as unknown
const script = (source: string) =>
  treeOf(`<script lang="ts">\n${source.replaceAll('</script', '<\\/script')}\n</script>`)

const FOLDER = new URL('.', import.meta.url)
const SOURCES = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.(ts|svelte)$/.test(path) && !/\.d\.ts$/.test(path))
  .sort()

test('a local name is a noun', { timeout: 20_000 }, () => {
  const vague = SOURCES.flatMap((path) => {
    const source = readFileSync(new URL(path, FOLDER), 'utf8')
    if (!CANDIDATE.test(source.replace(COMMENT, ''))) return []
    if (!CANDIDATE.test(source)) return []
    const tree = path.endsWith('.svelte') ? treeOf(source) : script(source)
    return vagueNames(tree).map((name) => `${path}: ${name}`)
  })
  expect(SOURCES.length).toBeGreaterThan(200)
  expect(vague).toEqual([])
})

test.each([
  'let found = 1',
  'const { a: kept = 1, ...more } = row',
  'const [, told] = pair',
  'function f({ said }: Row, ...given: string[]) {}',
  'const f = (each: string) => each',
  'class Row { constructor(private held: string) {} }',
])('a vague name is found in a script: %s', (source) => {
  expect(vagueNames(script(source))).not.toEqual([])
})

test.each([
  '{#each rows as each (each.id)}{each.id}{/each}',
  '{#each rows as { shown }}{shown}{/each}',
  '{#snippet children(found)}{found}{/snippet}',
  '{#await load() then made}{made}{/await}',
  '{#if rows}{@const known = rows}{known}{/if}',
])('a vague name is found in a template: %s', (source) => {
  expect(vagueNames(treeOf(source))).not.toEqual([])
})

test('a property is not a local name', () => {
  expect(
    vagueNames(script('const day = row.said; const { kept: count } = row; type T = (given: string) => void')),
  ).toEqual([])
})
