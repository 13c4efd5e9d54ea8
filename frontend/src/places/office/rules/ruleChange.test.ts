import { expect, test } from 'vitest'
import { changedOf, isEmpty, typedOf } from './ruleChange'
import type { RuleField } from './ruleFigures'

const field = (path: string, kind: RuleField['kind'], value: string, rows: Record<string, string>[] = []) =>
  ({ path, kind, value, rows }) as unknown as RuleField
const FIELDS = [field('supplies.rate', 'percent', '4'), field('fees', 'table', '', [{ code: 'oil' }])]

test('an untouched form changes nothing', () => {
  expect(isEmpty(changedOf(FIELDS, typedOf(FIELDS)))).toBe(true)
})

test('only what differs is sent, a table as a whole', () => {
  const typed = typedOf(FIELDS)
  typed.figures['supplies.rate'] = '5'
  expect(changedOf(FIELDS, typed)).toEqual({ figures: { 'supplies.rate': '5' }, tables: {} })
  typed.tables.fees?.push({ code: 'coolant' })
  expect(changedOf(FIELDS, typed).tables).toEqual({ fees: [{ code: 'oil' }, { code: 'coolant' }] })
  expect(FIELDS[1]?.rows).toEqual([{ code: 'oil' }])
})
