import { expect, test } from 'vitest'
import type { Answer, Problem } from './client'
import { Submission } from './submission.svelte'

const problem: Problem = { type: '/problems/no', title: 'No', status: 409, detail: 'No.' }
const done: Answer<number> = { ok: true, status: 201, data: 7, etag: null, next: null }

test('a second press while the first waits sends nothing', async () => {
  const submission = new Submission()
  let sent = 0
  let finish = (_: Answer<number>) => {}
  const write = () => {
    sent += 1
    return new Promise<Answer<number>>((resolve) => {
      finish = resolve
    })
  }
  const first = submission.send(write)
  expect(submission.busy).toBe(true)
  expect(await submission.send(write)).toBeNull()
  finish(done)
  expect((await first)?.data).toBe(7)
  expect([sent, submission.busy]).toEqual([1, false])
})

test('a refusal stays until the next answer', async () => {
  const submission = new Submission()
  expect(await submission.send(async () => ({ ok: false, problem }) as Answer<number>)).toBeNull()
  expect([submission.problem, submission.withoutField]).toEqual([problem, problem])
  await submission.send(async () => done)
  expect(submission.problem).toBeNull()
})

test('a refusal of a field is shown at the field only', async () => {
  const submission = new Submission()
  const errors = [{ pointer: '/amount', detail: 'Enter an amount.' }]
  await submission.send(async () => ({ ok: false, problem: { ...problem, errors } }) as Answer<number>)
  expect(submission.withoutField).toBeNull()
  expect(submission.problem?.errors).toEqual(errors)
})
