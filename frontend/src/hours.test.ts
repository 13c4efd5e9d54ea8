// Checks that hours reach a sentence or a figure through the formatter of the reader's language.
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'

const FOLDER = new URL('.', import.meta.url)
const SOURCES = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' }).filter(
  (path) => /\.(ts|svelte)$/.test(path) && !/\.(test|d)\.ts$/.test(path),
)
/** Hours as they came from the server, as a fact of a sentence or as an attribute. */
const RAW = /(?:t\([^)]*?(?:\bn|hours): |hours=\{)[\w.]*hours\b(?![(])/g

const rawHours = (source: string) => source.match(RAW) ?? []

test('hours are written in the reader’s language', () => {
  expect(SOURCES.length).toBeGreaterThan(200)
  expect(
    SOURCES.flatMap((path) =>
      rawHours(readFileSync(new URL(path, FOLDER), 'utf8')).map((raw) => `${path}: ${raw}`),
    ),
  ).toEqual([])
})

test.each(["t('unit.hours', { n: step.hours })", "t('a.b', {\n hours: hours,\n})", 'hours={stage.hours}'])(
  'raw hours are found in %s',
  (source) => {
    expect(rawHours(source)).toHaveLength(1)
  },
)

test.each(["t('unit.hours', { n: amount(step.hours) })", "t('quote.hours')", 'hours={amount(stage.hours)}'])(
  '%s is right',
  (source) => {
    expect(rawHours(source)).toEqual([])
  },
)
