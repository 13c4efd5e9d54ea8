import { render } from 'svelte/server'
import { expect, test, vi } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import LinkList from './LinkList.svelte'

vi.mock('../../../../lib/app/router.svelte', () => ({ go() {} }))
learn(words)

const answer = {
  answer: 'accepted',
  name: 'Ines',
  at: '2026-02-02T10:00:00Z',
  price: '',
  waits: null,
  consents: [],
}

function drawn(fields: object, job: object | null = null): string {
  const quote = {
    answer: { ...answer, ...fields },
    totals: { gross: '3570.38' },
    exponent: 2,
    links: [],
    job,
  }
  const props = { quote, sending: { refusalOf: () => null } } as never
  return render(LinkList, { props })
    .body.replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')
}

test('an accepted quote names what the customer said and the total of that price', () => {
  expect(drawn({ price: 'automatic' })).toContain('The customer said: automatic. Accepted total: 3,570.38')
})

test('an accepted quote of one price names its total alone', () => {
  expect(drawn({})).toContain('Accepted total: 3,570.38')
  expect(drawn({})).not.toContain('The customer said')
})

test('a declined quote has no accepted total', () => {
  expect(drawn({ answer: 'declined' })).not.toContain('Accepted total')
})

test('how far a job can go is shown until it ends', () => {
  const job = { id: 'j', number: 'J-1', state: 'in_bay' }
  expect(drawn({}, job)).toContain('How far the job can go')
  for (const state of ['handed_over', 'called_off'])
    expect(drawn({}, { ...job, state })).not.toContain('How far the job can go')
})

test('a link that works can be cancelled; one that was cancelled or has ended says when', () => {
  const link = { made_at: '2026-02-02T10:00:00Z', expires_at: '2999-01-01T10:00:00Z', revoked_at: null }
  const links = [
    { ...link, id: '1', recipient: 'Anwen' },
    { ...link, id: '2', recipient: 'Joon', revoked_at: '2026-02-03T10:00:00Z' },
    { ...link, id: '3', recipient: 'Rosa', expires_at: '2026-02-04T10:00:00Z' },
  ]
  const { body } = render(LinkList, {
    props: { quote: { answer: null, links }, sending: { refusalOf: () => null } } as never,
  })
  const rows = body.split('<li').slice(1)
  expect(rows.map((row) => /aria-label="([^"]*)"/.exec(row)?.[1])).toEqual([
    'Cancel the link of Anwen',
    undefined,
    undefined,
  ])
  expect(rows[0]).toMatch(/works until .*2999/)
  expect(rows[1]).toContain('cancelled')
  expect(rows[2]).toContain('ended')
  expect(rows[1]).not.toContain('works until')
})

test('a quote that nobody can open says so', () => {
  const { body } = render(LinkList, {
    props: { quote: { answer: null, links: [] }, sending: { refusalOf: () => null } } as never,
  })
  expect(body).toContain('No link works now')
})
