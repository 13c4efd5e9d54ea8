import { expect, test } from 'vitest'
import type { Problem } from '../api/client'
import { FormProblem } from './formProblem'

const of = (...pointers: string[]): Problem => ({
  type: '/problems/invalid',
  title: 'Some fields are wrong',
  status: 422,
  detail: 'Correct them and send again.',
  errors: pointers.map((pointer) => ({ pointer, detail: `wrong: ${pointer}` })),
})

test('a field shows the error of its pointer only', () => {
  const form = new FormProblem(() => of('/amount'))
  expect(form.at('amount')).toBe('wrong: /amount')
  expect(form.at('reason')).toBeUndefined()
})

test('what fields show does not stand above the buttons too', () => {
  const form = new FormProblem(() => of('/amount'))
  form.claim('amount')
  expect(form.unclaimed).toBeNull()
})

test('an error that no field shows stands above the buttons', () => {
  const form = new FormProblem(() => of('/amount', '/currency'))
  form.claim('amount')
  expect(form.unclaimed?.errors).toEqual([{ pointer: '/currency', detail: 'wrong: /currency' }])
})

test('a refusal without errors stands above the buttons as it is', () => {
  const { errors: _, ...plain } = of()
  expect(new FormProblem(() => plain).unclaimed).toEqual(plain)
})

test('without a refusal nothing is shown', () => {
  const form = new FormProblem(() => null)
  expect(form.at('amount')).toBeUndefined()
  expect(form.unclaimed).toBeNull()
})
