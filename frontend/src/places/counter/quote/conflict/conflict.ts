// Compares the draft that a person saw with the one that somebody else has changed in the meantime.
import { amount, plain } from '../../../../lib/text/decimals'
import { t } from '../../../../lib/text/text'
import type { Quote } from '../draft.svelte'

/** A fact that differs, as text; null where one of the two does not have it. */
interface Differing {
  title: string
  seen: string | null
  newest: string | null
}

interface Fact {
  key: string
  title: string
  value: string
}

/** Returns the facts and lines of two drafts that differ, the total first. */
export function differing(seen: Quote, newest: Quote): Differing[] {
  const [before, after] = [factsOf(seen), factsOf(newest)]
  const keys = new Map([...before, ...after].map(({ key, title }) => [key, title]))
  const valueIn = (facts: Fact[], key: string) => facts.find((fact) => fact.key === key)?.value ?? null
  return [...keys]
    .map(([key, title]) => ({ title, seen: valueIn(before, key), newest: valueIn(after, key) }))
    .filter((row) => row.seen !== row.newest)
}

function factsOf(quote: Quote): Fact[] {
  const money = (value: string) => amount(value, quote.exponent)
  const own = (key: string, title: string, value: string | null | undefined) =>
    value ? [{ key, title, value }] : []
  return [
    ...own('total', t('quote.gross'), money(quote.totals.gross)),
    ...own('customer', t('quote.box.customer'), quote.customer?.name),
    ...own('vehicle', t('quote.box.vehicle'), quote.vehicle?.title),
    ...own('note', t('quote.note'), quote.note),
    ...own('customer_note', t('quote.note.customer'), quote.customer_note),
    ...own('discount', quote.discount?.title ?? '', quote.discount && money(quote.discount.price)),
    ...quote.kits.map(({ line, title, price }) => ({ key: line, title, value: money(price) })),
    ...quote.labour.operations.map(({ key, title, hours }) => ({
      key,
      title,
      value: t('quote.conflict.hours', { hours: plain(hours) }),
    })),
    ...quote.needs.map(({ key, title, price }) => ({ key, title, value: money(price) })),
    ...quote.outside.map(({ line, name, price }) => ({ key: line, title: name, value: money(price) })),
    ...(quote.contingencies ?? []).map(({ line, event, highest }) => ({
      key: line,
      title: event,
      value: money(highest),
    })),
    ...quote.extras.map(({ line, title, quantity, price }) => ({
      key: line,
      title,
      value: t('quote.conflict.line', { quantity: plain(quantity), price: money(price) }),
    })),
  ]
}
