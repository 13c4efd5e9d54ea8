import { expect, test } from 'vitest'
import { csrfToken } from './client'

test.each([
  ['csrftoken=abc', 'abc'],
  ['a=b; __Host-csrftoken=abc; c=d', 'abc'],
  ['csrftoken=left-over; __Host-csrftoken=abc', 'abc'],
  ['xcsrftoken=abc', undefined],
  ['', undefined],
])('the token of %j is %s', (cookies, token) => {
  expect(csrfToken(cookies)).toBe(token)
})
