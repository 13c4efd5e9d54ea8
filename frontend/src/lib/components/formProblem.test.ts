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
  expect(form.errorAt('amount')).toBe('wrong: /amount')
  expect(form.errorAt('reason')).toBeUndefined()
  expect(form.errorAt('reason', 'amount')).toBe('wrong: /amount')
})

test('what fields show does not stand above the buttons too', () => {
  const form = new FormProblem(() => of('/amount'))
  form.errorAt('amount')
  expect(form.elsewhere).toBeNull()
})

test('an error that no field shows stands above the buttons', () => {
  const form = new FormProblem(() => of('/amount', '/currency'))
  form.errorAt('amount')
  expect(form.elsewhere?.errors).toEqual([{ pointer: '/currency', detail: 'wrong: /currency' }])
})

test('a refusal without errors stands above the buttons as it is', () => {
  const { errors: _, ...plain } = of()
  expect(new FormProblem(() => plain).elsewhere).toEqual(plain)
})

test('without a refusal nothing is shown', () => {
  const form = new FormProblem(() => null)
  expect(form.errorAt('amount')).toBeUndefined()
  expect(form.elsewhere).toBeNull()
})
