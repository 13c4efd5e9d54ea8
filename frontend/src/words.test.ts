// No words in the markup: every one comes from a catalogue, so that it can be read, checked and translated.
import { readdirSync, readFileSync } from 'node:fs'
import { parse } from 'svelte/compiler'
import { expect, test } from 'vitest'

type Node = { type: string; [key: string]: unknown }

const SHOWN =
  /^(aria-label|placeholder|title|alt|label|hint|note|what|why|says|word|words|action|figure|because|margin)$/
const LETTERS = /\p{L}/u

/** Every literal that a person would read, in the order of the file. */
function literals(source: string): string[] {
  const found: string[] = []
  walk(parse(source, { modern: true }).fragment as unknown as Node, found)
  return found
}

function walk(node: Node, found: string[]): void {
  if (node.type === 'Text') say(node.data, found)
  else if (node.type === 'ExpressionTag') expression(node.expression as Node, found)
  else if (node.type === 'Attribute') {
    if (SHOWN.test(node.name as string)) each(node.value, found)
  } else for (const [key, value] of Object.entries(node)) if (key !== 'expression') each(value, found)
}

function each(value: unknown, found: string[]): void {
  for (const one of Array.isArray(value) ? value : [value])
    if (one && typeof one === 'object' && 'type' in one) walk(one as Node, found)
}

/** A string that an expression may come to; what is inside a call (a key, a class) is no text. */
function expression(node: Node | undefined, found: string[]): void {
  if (!node) return
  if (node.type === 'Literal') say(node.value, found)
  if (node.type === 'TemplateLiteral')
    for (const quasi of node.quasis as { value: { cooked: string } }[]) say(quasi.value.cooked, found)
  if (node.type === 'ConditionalExpression')
    for (const key of ['consequent', 'alternate']) expression(node[key] as Node, found)
  if (node.type === 'LogicalExpression' || node.type === 'BinaryExpression')
    for (const key of ['left', 'right']) if (node.operator !== '===') expression(node[key] as Node, found)
}

function say(text: unknown, found: string[]): void {
  if (typeof text === 'string' && LETTERS.test(text)) found.push(text.trim())
}

const files = readdirSync('src', { recursive: true, encoding: 'utf8' }).filter((name) =>
  name.endsWith('.svelte'),
)

test.each(files)('%s holds no words of its own', (name) => {
  expect(literals(readFileSync(`src/${name}`, 'utf8'))).toEqual([])
})

test.each([
  ['<p>Hello</p>', 'Hello'],
  ['<p>{"Hello"}</p>', 'Hello'],
  ['<p>{a ? t("x") : "Hello"}</p>', 'Hello'],
  ['<p>{`Hello $' + '{n}`}</p>', 'Hello'],
  ['<button aria-label="Hello"></button>', 'Hello'],
  ['<Line what="Hello" />', 'Hello'],
  ['<Line what={a ?? "Hello"} />', 'Hello'],
  ['{#if a}<p>Hello</p>{/if}', 'Hello'],
])('it finds the words in %s', (source, words) => {
  expect(literals(source)).toEqual([words])
})

test.each(['<p>{t("hello")}</p>', '<p class="hello" id="hello">{a === "hello" ? "" : "\\u2013"}</p>'])(
  'it lets %s pass',
  (source) => {
    expect(literals(source)).toEqual([])
  },
)
