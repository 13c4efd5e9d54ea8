// Translates keys to words. Every word on a screen comes from a catalogue in `messages/`. The common catalogue is
// always loaded; a place's own arrives with its first screen (see `screens.ts`) to keep the first load small. A
// second language needs a folder next to `en-GB`; our own language fills its gaps.

import common from '../messages/en-GB/common.ftl'
import type { Words } from '../messages/words'
import { numbers, plurals } from './language'

type Fact = string | number
type Facts = Readonly<Record<string, Fact>>

/** A sentence with {facts}; if it chooses by a fact, a function made by `build/fluent.ts`. */
type Sentence =
  | string
  | ((facts: Facts, plural: (n: Fact) => string, write: (fact: Fact) => string) => string)
export type Catalogue = Readonly<Record<string, Sentence>>

export type Key = keyof Words
type Rest<K extends Key> = Words[K] extends null ? [] : [facts: Words[K]]

/** The keys of sentences without facts, for tables that map codes to words. */
export type Plain = { [K in Key]: Words[K] extends null ? K : never }[Key]

const sentences: Record<string, Sentence> = { ...common }
let translated: Catalogue = {}
/** The plural rules of our own language, for sentences that the reader's language lacks. */
const OURS = new Intl.PluralRules('en-GB')

type Load = () => Promise<{ default: Catalogue }>
type Files = Record<string, Load>
const OTHERS: Files = import.meta.glob<{ default: Catalogue }>([
  '../messages/*/*.ftl',
  '!../messages/en-GB/*.ftl',
])
let current: string | undefined
let fetching: Promise<void> | undefined

/** Sets the reader's language. Returns a promise while its sentences are fetched, undefined for our own language. */
export function translate(language = '', files: Files = OTHERS): Promise<void> | undefined {
  if (language === current) return fetching
  current = language
  translated = {}
  const [base] = language.split('-')
  const catalogues = Object.entries(files).filter(([path]) => path.split('/').at(-2)?.split('-')[0] === base)
  fetching = catalogues.length ? read(language, catalogues) : undefined
  return fetching
}

/** Loads the sentences. On failure our own language stays: better than no screen. */
async function read(language: string, files: [string, Load][]): Promise<void> {
  const modules = await Promise.all(files.map(([, load]) => load())).catch(() => [])
  if (language === current) translated = Object.assign({}, ...modules.map((module) => module.default))
}

/** Adds a place's catalogue to those in use. */
export function learn(catalogue: Catalogue): void {
  Object.assign(sentences, catalogue)
}

/** Returns the sentence of `key` with its {facts} filled in; whole numbers get thousands separators. */
export function t<K extends Key>(key: K, ...facts: Rest<K>): string {
  const other = translated[key]
  const sentence = other ?? sentences[key]
  if (sentence === undefined) throw new Error(`no words for ${String(key)}`)
  return fill(sentence, (facts[0] ?? {}) as Facts, other === undefined ? OURS : plurals)
}

function write(fact: Fact): string {
  return typeof fact === 'number' ? numbers.format(fact) : fact
}

/** `counted`: the plurals of the language that the sentence is written in. */
export function fill(sentence: Sentence, facts: Facts, counted = plurals): string {
  if (typeof sentence === 'function') return sentence(facts, (n) => counted.select(n as number), write)
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => write(facts[name] ?? ''))
}
