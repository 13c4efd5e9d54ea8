// Checks that markup holds no words: each comes from a catalogue, so that it can be checked and translated.
import { readdirSync, readFileSync } from 'node:fs'
import { parse } from 'svelte/compiler'
import ts from 'typescript'
import { expect, test } from 'vitest'

type Node = { type: string; [key: string]: unknown }

const SHOWN =
  /^(aria-label|placeholder|title|alt|label|hint|note|what|why|says|word|words|action|figure|because|margin)$/
const LETTERS = /\p{L}/u

/** Returns the literals that a person would read, in file order. */
function literals(source: string): string[] {
  const texts: string[] = []
  walk(parse(source, { modern: true }).fragment as unknown as Node, texts)
  return texts
}

function walk(node: Node, texts: string[]): void {
  if (node.type === 'Text') say(node.data, texts)
  else if (node.type === 'ExpressionTag') expression(node.expression as Node, texts)
  else if (node.type === 'Attribute') {
    if (SHOWN.test(node.name as string)) walkAll(node.value, texts)
  } else for (const [key, value] of Object.entries(node)) if (key !== 'expression') walkAll(value, texts)
}

function walkAll(value: unknown, texts: string[]): void {
  for (const item of Array.isArray(value) ? value : [value])
    if (item && typeof item === 'object' && 'type' in item) walk(item as Node, texts)
}

/** Returns the strings that an expression may evaluate to. Arguments of a call, such as a key or a class, are not text. */
function expression(node: Node | undefined, texts: string[]): void {
  if (!node) return
  if (node.type === 'Literal') say(node.value, texts)
  if (node.type === 'TemplateLiteral')
    for (const quasi of node.quasis as { value: { cooked: string } }[]) say(quasi.value.cooked, texts)
  if (node.type === 'ConditionalExpression')
    for (const key of ['consequent', 'alternate']) expression(node[key] as Node, texts)
  if (node.type === 'LogicalExpression' || node.type === 'BinaryExpression')
    for (const key of ['left', 'right']) if (node.operator !== '===') expression(node[key] as Node, texts)
}

function say(text: unknown, texts: string[]): void {
  if (typeof text === 'string' && LETTERS.test(text)) texts.push(text.trim())
}

const all = readdirSync('src', { recursive: true, encoding: 'utf8' })
const files = all.filter((name) => name.endsWith('.svelte'))

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

/** Texts of several words that no person reads: a selector, keys of the phone's store, names of capacities. */
const KEYS = /^(main h1|sign-out owed|step in hand of |outside work|engine oil|transmission fluid)$/
const SENTENCE = /\p{L} \p{L}/u

/** Returns a script's own sentences and the places where it joins messages. */
function ownSentences(source: string): string[] {
  const file = ts.createSourceFile('', source, ts.ScriptTarget.Latest, true)
  const sentences: string[] = []
  const isMessage = (node: ts.Node): boolean =>
    (ts.isCallExpression(node) && node.expression.getText() === 't') ||
    (ts.isConditionalExpression(node) && (isMessage(node.whenTrue) || isMessage(node.whenFalse))) ||
    (ts.isParenthesizedExpression(node) && isMessage(node.expression))
  const visit = (node: ts.Node): void => {
    if (ts.isNewExpression(node) && /(Error|Refusal)$/.test(node.expression.getText())) return
    if (ts.isStringLiteralLike(node) || ts.isTemplateHead(node) || ts.isTemplateMiddleOrTemplateTail(node))
      if (SENTENCE.test(node.text) && !KEYS.test(node.text)) sentences.push(node.text)
    if (ts.isTemplateExpression(node) && node.templateSpans.some((span) => isMessage(span.expression)))
      sentences.push(node.getText())
    if (ts.isBinaryExpression(node) && node.operatorToken.kind === ts.SyntaxKind.PlusToken)
      if (isMessage(node.left) || isMessage(node.right)) sentences.push(node.getText())
    ts.forEachChild(node, visit)
  }
  visit(file)
  return sentences
}

const FIRST = /^(charAt|at|slice)$/
const CASE = /^to(Locale)?(Upper|Lower)Case$/

function isMessage(node: Node): boolean {
  if (node.type === 'ConditionalExpression')
    return [node.consequent as Node, node.alternate as Node].some(isMessage)
  return node.type === 'CallExpression' && (node.callee as Node).name === 't'
}

/** Returns the name of the method that a node calls, and the node on which it is called. */
function methodCall(node: Node): { name: string; object?: Node } {
  const callee = node.type === 'CallExpression' ? (node.callee as Node) : node
  if (callee.type !== 'MemberExpression' || callee === node) return { name: '' }
  return { name: (callee.property as Node).name as string, object: callee.object as Node }
}

/** Returns whether code joins a message with other text, or changes the case of a first letter. */
function isGlue(node: Node): boolean {
  const { name, object } = methodCall(node)
  if (CASE.test(name)) return FIRST.test(methodCall(object as Node).name)
  if (name === 'join') {
    const separator = (node.arguments as Node[])[0]?.value
    return separator === ' ' && ((object?.elements ?? []) as Node[]).some(isMessage)
  }
  if (node.type === 'TemplateLiteral')
    return (node.quasis as unknown[]).length > 1 && (node.expressions as Node[]).some(isMessage)
  return node.operator === '+' && [node.left as Node, node.right as Node].some(isMessage)
}

/** Returns the places in script and markup where code puts a sentence together. */
function glued(source: string): string[] {
  const places: string[] = []
  const visit = (value: unknown): void => {
    if (Array.isArray(value)) value.forEach(visit)
    else if (value && typeof value === 'object') {
      const node = value as Node
      if (node.type && isGlue(node)) places.push(source.slice(node.start as number, node.end as number))
      for (const [key, inner] of Object.entries(node)) if (key !== 'loc') visit(inner)
    }
  }
  visit({ ...parse(source, { modern: true }) })
  return places
}

test.each(files)('no code of %s puts a sentence together', (name) => {
  expect(glued(readFileSync(`src/${name}`, 'utf8'))).toEqual([])
})

test.each([
  '<p title={`$' + '{state}; $' + "{t('a')}`}></p>",
  "<p>{a ? t('a') + ', ' + b : ''}</p>",
  '<Field label={name.charAt(0).toUpperCase() + name.slice(1)} />',
  "<script>const all = [t('a'), ...(b ? [t('b')] : [])].join(' ')</script>",
])('it finds what is put together in %s', (source) => {
  expect(glued(source)).toHaveLength(1)
})

test.each([
  "<p>{t('a')}, {b}</p>",
  "<p>{[t('a'), t('b')].join(', ')}</p>",
  '<p id={`$' + '{id}-error`}></p>',
])('it finds nothing put together in %s', (source) => {
  expect(glued(source)).toEqual([])
})

const SCRIPT = /<script[^>]*>([\s\S]*?)<\/script>/g
const scripts = all.filter((name) => /\.(ts|svelte)$/.test(name) && !/\.(test|d)\.ts$/.test(name))

test.each(scripts)('the script of %s holds no sentences of its own', (name) => {
  const source = readFileSync(`src/${name}`, 'utf8')
  const script = name.endsWith('.ts')
    ? source
    : [...source.matchAll(SCRIPT)].map(([, code]) => code).join('\n')
  expect(ownSentences(script)).toEqual([])
})

test.each([
  ["const says = 'Save this count'", 'Save this count'],
  ['const says = `$' + '{n} lines of $' + '{m}`', ' lines of '],
  ['const both = `$' + "{t('a')}: $" + '{sum}`', '`$' + "{t('a')}: $" + '{sum}`'],
  ["const both = t('a') + sum", "t('a') + sum"],
])('it finds the sentence in %s', (source, sentence) => {
  expect(ownSentences(source)).toContain(sentence)
})

test.each(["throw new Error('no words for it')", "t('a.b', { n })", "const class = 'in'"])(
  'it lets %s pass as code',
  (source) => {
    expect(ownSentences(source)).toEqual([])
  },
)
