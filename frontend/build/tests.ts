import { readdirSync, readFileSync } from 'node:fs'
import type { TestProjectConfiguration } from 'vitest/config'

/** A test that puts something in place of a module, a global or the clock, or that begins with an empty phone. */
const REPLACES = /\bvi\.|fake-indexeddb|await import\(/

/** Gives a test file modules of its own where it replaces something. The others share theirs, which are loaded once. */
export function projects(folder: string): TestProjectConfiguration[] {
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.test.ts'))
    .map((name) => `${folder}/${name}`)
  const alone = files.filter((file) => REPLACES.test(readFileSync(file, 'utf8')))
  const together = files.filter((file) => !alone.includes(file))
  return [
    { extends: true, test: { name: 'alone', include: alone } },
    { extends: true, test: { name: 'together', include: together, isolate: false } },
  ]
}
