// The choices that a draft leaves to the customer, and the changes of them.
import { write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'
import { labourLines } from './labour'

export type Choice = Quote['choices'][number]
export type Option = Choice['options'][number]
type NewOption = { title: string; preselected: boolean; lines: string[] }
type NewChoice = { title: string; take: Choice['take']; options: NewOption[] }

/** A line of the draft, with the option that it is part of; null for a line that everybody gets. */
interface DraftLine {
  line: string
  title: string
  option: string | null
}

const at = 'choices'
const choicesPath = 'quotes/{id}/choices' as const
const choicePath = 'quotes/{id}/choices/{choice}' as const
const optionsPath = 'quotes/{id}/choices/{choice}/options' as const
const optionPath = 'quotes/{id}/options/{option}' as const
const linePath = 'quotes/{id}/lines/{line}' as const

/** Returns every line of the draft once: those shown first, then those of options that are not proposed. */
export function linesOf(quote: Quote): DraftLine[] {
  const lineById = new Map<string, DraftLine>()
  for (const { line, title } of [
    ...quote.kits,
    ...quote.extras,
    ...quote.outside,
    ...labourLines(quote.labour.operations),
    ...(quote.contingencies ?? []),
  ])
    lineById.set(line, { line, title, option: null })
  for (const choice of quote.choices)
    for (const { id, lines } of choice.options)
      for (const { line, title } of lines) lineById.set(line, { line, title, option: id })
  return [...lineById.values()]
}

/** Reads one option from each line of text; empty lines are left out. */
export function optionsTyped(text: string): NewOption[] {
  const titles = text.split('\n').map((title) => title.trim())
  return titles.filter(Boolean).map((title) => ({ title, preselected: false, lines: [] }))
}

export function addChoice(choice: NewChoice): Change {
  return {
    says: t('quote.did.add', { title: choice.title }),
    at,
    send: (_match, now) => write('post', choicesPath, { id: now.id }, choice),
  }
}

/** Removes a choice. Its lines stay on the quote. */
export function removeChoice(choice: Choice): Change {
  return {
    says: t('quote.did.take_off', { title: choice.title }),
    at,
    send: (match, now) =>
      write('delete', choicePath, { id: now.id, choice: choice.id }, undefined, { match }),
  }
}

export function changeChoice(choice: Choice, to: { title?: string; take?: Choice['take'] }): Change {
  return {
    says: t('quote.did.change', { title: choice.title }),
    at,
    send: (match, now) => write('patch', choicePath, { id: now.id, choice: choice.id }, to, { match }),
  }
}

export function addOption(choice: string, option: NewOption): Change {
  return {
    says: t('quote.did.add', { title: option.title }),
    at,
    send: (_match, now) => write('post', optionsPath, { id: now.id, choice }, option),
  }
}

/** Removes an option. Its lines stay on the quote. */
export function removeOption(of: Option): Change {
  return {
    says: t('quote.did.take_off', { title: of.title }),
    at,
    send: (match, now) => write('delete', optionPath, { id: now.id, option: of.id }, undefined, { match }),
  }
}

/** Sets what the workshop proposes: in a choice of one, this option replaces the one proposed before. */
export function propose(of: Option, preselected: boolean): Change {
  return {
    says: t(preselected ? 'quote.did.proposed' : 'quote.did.not_proposed', { title: of.title }),
    at,
    send: (match, now) =>
      write('patch', optionPath, { id: now.id, option: of.id }, { preselected }, { match }),
  }
}

export function renameOption(of: Option, title: string): Change {
  return {
    says: t('quote.did.change', { title }),
    at,
    send: (match, now) => write('patch', optionPath, { id: now.id, option: of.id }, { title }, { match }),
  }
}

/** Moves an option to a place in its choice, counted from 1. */
export function moveOption(of: Option, position: number): Change {
  return {
    says: t('quote.did.change', { title: of.title }),
    at,
    send: (match, now) => write('patch', optionPath, { id: now.id, option: of.id }, { position }, { match }),
  }
}

export function moveLine(of: DraftLine, to: string | null): Change {
  return {
    says: t('quote.did.change', { title: of.title }),
    at,
    send: (match, now) => write('patch', linePath, { id: now.id, line: of.line }, { option: to }, { match }),
  }
}
