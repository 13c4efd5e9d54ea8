import { render } from 'svelte/server'
import { beforeEach, expect, test, vi } from 'vitest'
import words from '../../../../lib/messages/en-GB/quote.ftl'
import { learn } from '../../../../lib/text/text'
import MailPanel from './MailPanel.svelte'

// Tests of the words about the e-mails of a quote, without a server and without a browser.
const mails = vi.hoisted(() => ({ data: {} as object }))
vi.mock('../../../../lib/api/resource.svelte', () => ({ resource: () => mails, follow() {} }))

learn(words)

const mail = {
  id: '1',
  kind: 'quote_link',
  to: 'maren@mail.example',
  state: 'done',
  words: 'sent Mon 2 Feb 2026, 11:00',
  asked_at: '2026-02-02T10:00:00Z',
  asked_by: 'Imke Tarrow',
  decisions: [] as string[],
}

function drawn(state: string, fields: object): string {
  mails.data = { is_sent: true, address: 'maren@mail.example', items: [], ...fields }
  const quote = { id: 'q', state, digest: 'ab', customer: { name: 'Maren Oldacre' } }
  return render(MailPanel, { props: { quote } as never }).body
}
const text = (html: string) =>
  html
    .replace(/<wbr\/?>|<!--.*?-->/g, '')
    .replace(/<[^>]*>/g, ' ')
    .replace(/\s+/g, ' ')

beforeEach(() => {
  mails.data = {}
})

test('a sent quote offers an e-mail to the recorded address', () => {
  const html = drawn('sent', {})
  expect(html).toContain('value="maren@mail.example"')
  expect(text(html)).toContain('Send the link by e-mail')
  expect(text(html)).not.toContain('No e-mail address is recorded')
})

test('a missing address is said before anything is sent', () => {
  expect(text(drawn('sent', { address: '' }))).toContain(
    'No e-mail address is recorded for Maren Oldacre, so no receipt will be sent either.',
  )
})

test('without a mail server it says that nothing leaves', () => {
  expect(text(drawn('sent', { is_sent: false }))).toContain('No mail server is set')
})

test('an e-mail says to whom, what became of it, who asked and what can be decided', () => {
  const unsure = { ...mail, words: 'It may have been sent.', decisions: ['again', 'arrived', 'cancel'] }
  const html = drawn('sent', { items: [unsure] })
  expect(text(html)).toMatch(/Link to maren@mail.example.*It may have been sent.*asked for by Imke Tarrow/)
  expect(html.match(/aria-label="[^"]*"/g)).toEqual([
    'aria-label="Send again: maren@mail.example"',
    'aria-label="It arrived: maren@mail.example"',
    'aria-label="Do not send: maren@mail.example"',
  ])
})

test('a receipt that failed stands open, and was asked for by the acceptance', () => {
  const receipt = { ...mail, kind: 'receipt', asked_by: null }
  expect(text(drawn('accepted', { items: [receipt] }))).not.toContain('Receipt to')
  const html = drawn('accepted', { items: [{ ...receipt, state: 'failed' }] })
  expect(text(html)).toMatch(/Receipt to maren@mail.example.*asked for by the acceptance/)
})

test('a withdrawn quote offers no e-mail, and shows those there were', () => {
  expect(drawn('withdrawn', {})).not.toContain('<form')
  expect(text(drawn('withdrawn', {}))).not.toContain('E-mail')
  const html = drawn('withdrawn', { items: [mail] })
  expect(html).not.toContain('<form')
  expect(text(html)).toContain('sent Mon 2 Feb 2026, 11:00')
})
