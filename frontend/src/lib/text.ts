// Every word on the screen comes from a catalogue in `messages/`. The common one is always there; a place's own
// arrives with its first screen (see `screens.ts`), so the first load stays small.

import type { bay } from './messages/bay'
import { common } from './messages/common'
import type { counter } from './messages/counter'
import type { office } from './messages/office'
import type { outside } from './messages/outside'
import type { parts } from './messages/parts'
import type { plan } from './messages/plan'
import type { quote } from './messages/quote'
import type { ready } from './messages/ready'

/** A sentence with {facts} in it, or two of them told apart by the fact `n`. */
export type Entry = string | { readonly one: string; readonly other: string }
export type Catalogue = Readonly<Record<string, Entry>>

type Words = typeof common &
  typeof counter &
  typeof plan &
  typeof quote &
  typeof ready &
  typeof outside &
  typeof parts &
  typeof bay &
  typeof office
export type Key = keyof Words

type Named<S> = S extends `${string}{${infer Name}}${infer Rest}` ? Name | Named<Rest> : never
type Sentences<E> = E extends { one: infer A; other: infer B } ? A | B : E
type Wanted<K extends Key> = Named<Sentences<Words[K]>> | (Words[K] extends string ? never : 'n')
type Facts<K extends Key> = { [name in Wanted<K>]: string | number }
type Rest<K extends Key> = [Wanted<K>] extends [never] ? [] : [facts: Facts<K>]

/** The keys whose sentence needs no facts, for tables from a code to its word. */
export type Plain = { [K in Key]: [Wanted<K>] extends [never] ? K : never }[Key]

const known: Record<string, Entry> = { ...common }

/** Adds a place's catalogue to those in use. */
export function learn(catalogue: Catalogue): void {
  Object.assign(known, catalogue)
}

/** The words for `key`, its {facts} filled in; whole numbers get thousands separators. */
export function t<K extends Key>(key: K, ...facts: Rest<K>): string {
  const entry = known[key]
  if (entry === undefined) throw new Error(`no words for ${String(key)}`)
  return fill(entry, (facts[0] ?? {}) as Record<string, string | number>)
}

const grouping = new Intl.NumberFormat('en-GB')

export function fill(entry: Entry, facts: Record<string, string | number>): string {
  const sentence = typeof entry === 'string' ? entry : facts.n === 1 ? entry.one : entry.other
  return sentence.replace(/\{(\w+)\}/g, (_, name: string) => {
    const fact = facts[name]
    return typeof fact === 'number' ? grouping.format(fact) : (fact ?? '')
  })
}
