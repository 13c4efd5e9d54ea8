// Checks that a place imports no other place, and that nothing but the list of screens imports a place.
import { readdirSync, readFileSync } from 'node:fs'
import { posix } from 'node:path'
import { expect, test } from 'vitest'

const FOLDER = new URL('.', import.meta.url)
const SOURCES = readdirSync(FOLDER, { recursive: true, encoding: 'utf8' })
  .filter((path) => /\.(ts|svelte)$/.test(path) && !/\.d\.ts$/.test(path) && path !== 'screens.ts')
  .sort()
const IMPORTED = /(?:from|import)\s*\(?\s*'(\.[^']+)'/g

const placeOf = (path: string) => (path.startsWith('places/') ? path.split('/')[1] : '')

/** Returns the imports of a module that lead into a place that it is not in. */
const foreignImports = (path: string, source: string): string[] =>
  [...source.matchAll(IMPORTED)]
    .map(([, target = '']) => posix.join(posix.dirname(path), target))
    .filter((target) => placeOf(target) && placeOf(target) !== placeOf(path))

test('no place imports another one', () => {
  const foreign = SOURCES.flatMap((path) =>
    foreignImports(path, readFileSync(new URL(path, FOLDER), 'utf8')).map((target) => `${path}: ${target}`),
  )
  expect(SOURCES.some((path) => placeOf(path) === 'office')).toBe(true)
  expect(foreign).toEqual([])
})

test.each([
  ['places/bay/step/A.svelte', "import B from '../../parts/B.svelte'", ['places/parts/B.svelte']],
  ['lib/components/A.svelte', "const b = () => import('../../places/bay/B.svelte')", ['places/bay/B.svelte']],
  ['places/bay/step/A.svelte', "import B from '../B.svelte'\nimport { c } from '../../../calc/c'", []],
])('a planted import of %s is judged', (path, source, foreign) => {
  expect(foreignImports(path, source)).toEqual(foreign)
})
