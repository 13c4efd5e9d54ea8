import { expect, test } from 'vitest'
import words from '../../../lib/messages/en-GB/office.ftl'
import { learn } from '../../../lib/text/text'
import { moreDetail } from './moreDetail'

learn(words)
const bag = { kind: 'bag', operation: '', fitted: false }
const part = (operation = '', fitted = true) => ({ kind: 'part', operation, fitted })
const kit = (more: object) => ({ lines: [part()], needs: [], labour: null, ...more }) as never

test('each detail that a kit lacks says what it would bring', () => {
  expect(moreDetail(kit({})).map((says) => says.split(':')[0])).toEqual([
    'Bags or cartons',
    'A labour template',
    'The step that needs 1 part',
    'Fluids and small parts',
  ])
})

test('a kit with every detail lacks none, and one without contents says it elsewhere', () => {
  const whole = { lines: [bag, part('FIT')], needs: [{}], labour: 'TURBO' }
  expect([moreDetail(kit(whole)), moreDetail(kit({ lines: [] }))]).toEqual([[], []])
})

test('one bag is enough for bags, and parts without a step are counted but for spares', () => {
  const lines = [bag, part('FIT'), part(), part(), part('', false)]
  expect(moreDetail(kit({ lines, needs: [{}], labour: 'TURBO' }))).toEqual([
    'The steps that need 2 parts: without them, work cannot start before the parts are here. With them, work can start while the parts are still to come.',
  ])
})
