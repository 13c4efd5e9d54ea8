import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { compile, types } from '../../../build/fluent'
import { setLanguage } from './language'
import { type Catalogue, fill, learn, t, translate } from './text'

const FOLDER = 'src/lib/messages/en-GB'

interface Case {
  message: string
  facts: Record<string, string | number>
  says?: string
}

// The server tests the same cases: tests/words/test_sentences.py.
const cases: Case[] = JSON.parse(readFileSync('../fixtures/sentences.json', 'utf8'))

async function sentenceOf(message: string) {
  const module = compile(message)
  const { default: catalogue } = await import(`data:text/javascript,${encodeURIComponent(module)}`)
  return (catalogue as Catalogue).a ?? ''
}

test.each(cases.filter(({ says }) => says !== undefined))('$says', async ({ message, facts, says }) => {
  expect(fill(await sentenceOf(message), facts)).toBe(says)
})

test.each(cases.filter(({ says }) => says === undefined))('$message is refused', ({ message }) => {
  expect(() => compile(message)).toThrow()
})

test('a key that stands twice is refused', () => {
  expect(() => compile('a = One\na = Other')).toThrow('a stands twice')
})

test('whole numbers get thousands separators', async () => {
  const facts = { n: 1200, of: 10000 }
  expect(fill('{n} of {of}', facts)).toBe('1,200 of 10,000')
  expect(fill(await sentenceOf('a = { $n ->\n [one] it\n *[other] { $n } of { $of }\n }'), facts)).toBe(
    '1,200 of 10,000',
  )
})

test('a place adds its own words', () => {
  expect(() => t('parts.title')).toThrow('no words for parts.title')
  learn({ 'parts.title': 'Parts' })
  expect(t('parts.title')).toBe('Parts')
})

test('a second language says what it has, and our own the rest', async () => {
  const opening = t('app.opening')
  const { default: two } = await import(
    `data:text/javascript,${encodeURIComponent(compile('app-skip = Przejdź\nline-pieces = { $n } szt.'))}`
  )
  const files = { './messages/pl-PL/common.ftl': async () => ({ default: two as Catalogue }) }
  await translate('pl', files)
  expect([t('app.skip'), t('app.opening')]).toEqual(['Przejdź', opening])
  expect(translate('pl', files)).toBe(translate('pl', files))
  expect(translate('en-US', files)).toBeUndefined()
  expect(t('app.skip')).not.toBe('Przejdź')
})

test('sentences in our own language use its plurals', async () => {
  const parts = await sentenceOf('a = { $n ->\n [one] { $n } part\n *[other] { $n } parts\n }')
  const key = 'counter.missing'
  learn({ [key]: parts })
  setLanguage('lv') // in which 21 is counted like 1
  expect((t as (key: string, facts: object) => string)(key, { n: 21 })).toBe('21 parts')
  setLanguage()
})

test('if its sentences cannot be fetched, our own are shown', async () => {
  await translate('de', { './messages/de-DE/common.ftl': () => Promise.reject(new Error('no signal')) })
  expect(t('app.skip')).toBe('Skip to main content')
})

test('a key stands in one catalogue only', () => {
  const sources = readdirSync(FOLDER).map((name) => readFileSync(`${FOLDER}/${name}`, 'utf8'))
  expect(() => compile(sources.join('\n'))).not.toThrow()
})

test('the types of the sentences are those of the catalogues', () => {
  expect(readFileSync(`${FOLDER}/../words.d.ts`, 'utf8')).toBe(types(FOLDER))
})
