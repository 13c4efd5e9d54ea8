import { expect, test } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import { taxClassChoices } from './taxClasses'

learn(words)
const classes = ['core', 'fee', 'labour', 'outside work', 'part', 'untaxed'].map((code) => ({
  code,
  words: `${code}: VAT 20 %`,
}))

test('labour and parts stand first with their rates, the rest in a group', () => {
  expect(taxClassChoices(classes)).toEqual([
    { value: 'labour', label: 'labour: VAT 20 %' },
    { value: 'part', label: 'part: VAT 20 %' },
    { value: 'outside work', label: 'outside work: VAT 20 %' },
    { value: 'core', label: 'core: VAT 20 %', group: 'Other tax classes' },
    { value: 'fee', label: 'fee: VAT 20 %', group: 'Other tax classes' },
    { value: 'untaxed', label: 'untaxed: VAT 20 %', group: 'Other tax classes' },
  ])
})

test('a line of another firm has its own class first', () => {
  const values = taxClassChoices(classes, 'outside work').map(({ value }) => value)
  expect(values.slice(0, 3)).toEqual(['outside work', 'labour', 'part'])
})

test('where the rules have names of their own there is one list without groups', () => {
  const own = [
    { code: 'goods', words: 'goods: VAT 20 %' },
    { code: 'books', words: 'books: VAT 10 %' },
  ]
  expect(taxClassChoices(own)).toEqual([
    { value: 'goods', label: 'goods: VAT 20 %' },
    { value: 'books', label: 'books: VAT 10 %' },
  ])
})
