import { vi } from 'vitest'

/** Answers the browser's requests in a test. Their addresses have no host, which only a page would add. */
export function answerRequests(answer: (request: Request) => Promise<Response>) {
  vi.stubGlobal(
    'Request',
    class extends Request {
      constructor(input: string, init?: RequestInit) {
        super(new URL(input, 'http://shop.test'), init)
      }
    },
  )
  vi.stubGlobal('fetch', answer)
}
