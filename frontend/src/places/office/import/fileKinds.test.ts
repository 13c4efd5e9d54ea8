import { expect, test } from 'vitest'
import { fromSupplier, isKind, KINDS, mayImport, mayTakeOut, seesFiles, whoMay } from './fileKinds'

test('the manager takes in everything, the technician nothing', () => {
  expect(KINDS.filter((kind) => mayImport('manager', kind))).toEqual([...KINDS])
  expect(KINDS.filter((kind) => mayImport('technician', kind))).toEqual([])
  expect(seesFiles('technician')).toBe(false)
  expect(seesFiles(undefined)).toBe(false)
})

test('prices for everybody are the manager’s; parts staff take in what they handle', () => {
  expect(KINDS.filter((kind) => mayImport('parts', kind))).toEqual(['consumables', 'kit', 'packing_slip'])
  expect(KINDS.filter((kind) => mayImport('advisor', kind))).toEqual([
    'consumables',
    'kit',
    'kits',
    'customers',
    'vehicles',
    'packing_slip',
  ])
  expect(whoMay('labour')).toBe('rules')
})

test('kinds are known by name, and two come from a supplier', () => {
  expect(isKind('kit')).toBe(true)
  expect(isKind('quotes')).toBe(false)
  expect(KINDS.filter(fromSupplier)).toEqual(['consumables', 'kit'])
})

test('lists with prices are not taken out by parts staff', () => {
  expect(KINDS.filter((kind) => mayTakeOut('manager', kind))).toEqual([
    'rules',
    'labour',
    'suppliers',
    'consumables',
    'kits',
    'customers',
    'vehicles',
  ])
  expect(KINDS.filter((kind) => mayTakeOut('parts', kind))).toEqual([])
})
