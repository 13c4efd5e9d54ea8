import { readdirSync } from 'node:fs'
import { expect, test } from 'vitest'
import { type Catalogue, fill, learn, t } from './text'

const catalogues = await Promise.all(
  readdirSync('src/lib/messages').map(async (file) => {
    const module = (await import(`./messages/${file.replace('.ts', '')}.ts`)) as Record<string, Catalogue>
    return [file, Object.values(module)[0] as Catalogue] as const
  }),
)
const entries = catalogues.flatMap(([, words]) => Object.entries(words))
const sentences = entries.flatMap(([key, entry]) =>
  typeof entry === 'string'
    ? [[key, entry]]
    : [
        [key, entry.one],
        [key, entry.other],
      ],
) as [string, string][]

test('facts fill a sentence; whole numbers get thousands separators', () => {
  expect(fill('{done} of {of}', { done: 1200, of: 10000 })).toBe('1,200 of 10,000')
  expect(fill('{name}, {role}', { name: 'Ines Fallow', role: 'advisor' })).toBe('Ines Fallow, advisor')
})

test('one is told apart from many', () => {
  const entry = { one: '{n} count waits', other: '{n} counts wait' }
  expect(fill(entry, { n: 1 })).toBe('1 count waits')
  expect(fill(entry, { n: 0 })).toBe('0 counts wait')
})

test('a place adds its own words', () => {
  expect(() => t('parts.title')).toThrow('no words for parts.title')
  learn({ 'parts.title': 'Parts' })
  expect(t('parts.title')).toBe('Parts')
})

test('a key stands in one catalogue only', () => {
  const keys = entries.map(([key]) => key)
  expect(keys.filter((key, at) => keys.indexOf(key) !== at)).toEqual([])
})

test.each(sentences)('%s keeps to the house words', (_, sentence) => {
  expect(sentence).not.toMatch(
    /!|\boops\b|please try again|\bsubmit\b|explode|digest|dry run|sublet|revision|\bOK\b/i,
  )
  expect(sentence).not.toMatch(/\b(color|labor|catalog|center|gray)\b/i)
  expect(sentence.trim()).toBe(sentence)
})
