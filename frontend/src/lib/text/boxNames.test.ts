import { expect, test } from 'vitest'
import { bagName, cartonName } from './boxNames'

test.each([
  ['1', 'Carton 1'],
  ['Carton 1', 'Carton 1'],
  ['Box of seals', 'Box of seals'],
  ['', 'In the box'],
])('a carton labelled "%s" is called %s', (label, name) => {
  expect(cartonName(label)).toBe(name)
})

test.each([
  ['1-02', '1', 'Bag 1-02'],
  ['Bag A: cross-member', '1', 'Bag A: cross-member'],
  ['', '2', 'Loose in carton 2'],
  ['', '', 'Loose in the box'],
])('a bag labelled "%s" in carton "%s" is called %s', (label, carton, name) => {
  expect(bagName({ label, carton })).toBe(name)
})
