// The choices that a draft leaves to the customer, and the wishes about them, each with the one that takes it back.
import { write } from '../../../../lib/api/client'
import { t } from '../../../../lib/text/text'
import type { Change, Quote } from '../draft.svelte'

export type Choice = Quote['choices'][number]
export type Option = Choice['options'][number]
export type NewOption = { title: string; preselected: boolean; lines: string[] }
export type NewChoice = { title: string; take: Choice['take']; options: NewOption[] }

/** A line of the draft, with the option that it is part of; null for a line that everybody gets. */
export interface DraftLine {
  line: string
  title: string
  option: string | null
}

const at = 'choices'
const all = 'quotes/{id}/choices' as const
const one = 'quotes/{id}/choices/{choice}' as const
const options = 'quotes/{id}/choices/{choice}/options' as const
const option = 'quotes/{id}/options/{option}' as const
const line = 'quotes/{id}/lines/{line}' as const

/** Every chosen line once: those that are shown, then those of options that are not proposed. */
export function linesOf(quote: Quote): DraftLine[] {
  const found = new Map<string, DraftLine>()
  for (const { line, title } of [...quote.kits, ...quote.extras, ...quote.outside])
    found.set(line, { line, title, option: null })
  for (const choice of quote.choices)
    for (const { id, lines } of choice.options)
      for (const { line, title } of lines) found.set(line, { line, title, option: id })
  return [...found.values()]
}

/** One option a line; empty lines are left out. */
export function optionsTyped(text: string): NewOption[] {
  const titles = text.split('\n').map((each) => each.trim())
  return titles.filter(Boolean).map((title) => ({ title, preselected: false, lines: [] }))
}

export function addChoice(choice: NewChoice): Change {
  return {
    says: t('quote.did.add', { title: choice.title }),
    at,
    send: (_match, now) => write('post', all, { id: now.id }, choice),
    undo: (before, after) => {
      const made = newOf(before.choices, after.choices)
      return made ? removeChoice(made) : null
    },
  }
}

/** Its lines stay on the quote. Taken back, it comes last. */
export function removeChoice(choice: Choice): Change {
  return {
    says: t('quote.did.take_off', { title: choice.title }),
    at,
    send: (match, now) => write('delete', one, { id: now.id, choice: choice.id }, undefined, { match }),
    undo: () => addChoice({ ...choice, options: choice.options.map(said) }),
  }
}

export function changeChoice(choice: Choice, to: { title?: string; take?: Choice['take'] }): Change {
  return {
    says: t('quote.did.change', { title: choice.title }),
    at,
    send: (match, now) => write('patch', one, { id: now.id, choice: choice.id }, to, { match }),
    undo: () => changeChoice({ ...choice, ...to }, { title: choice.title, take: choice.take }),
  }
}

export function addOption(choice: string, made: NewOption): Change {
  return {
    says: t('quote.did.add', { title: made.title }),
    at,
    send: (_match, now) => write('post', options, { id: now.id, choice }, made),
    undo: (before, after) => {
      const added = newOf(optionsOf(before), optionsOf(after))
      return added ? removeOption(choice, added) : null
    },
  }
}

/** Its lines stay on the quote. Taken back, it comes last. */
export function removeOption(choice: string, of: Option): Change {
  return {
    says: t('quote.did.take_off', { title: of.title }),
    at,
    send: (match, now) => write('delete', option, { id: now.id, option: of.id }, undefined, { match }),
    undo: () => addOption(choice, said(of)),
  }
}

/** What the workshop proposes: of a choice of one, this option in the place of the one that is proposed. */
export function propose(choice: Choice, of: Option, preselected: boolean): Change {
  return {
    says: t(preselected ? 'quote.did.proposed' : 'quote.did.not_proposed', { title: of.title }),
    at,
    send: (match, now) => write('patch', option, { id: now.id, option: of.id }, { preselected }, { match }),
    undo: () => {
      const was = choice.options.find((each) => each.preselected)
      if (choice.take === 'one') return was ? propose(choice, was, true) : null
      return propose(choice, of, !preselected)
    },
  }
}

export function renameOption(of: Option, title: string): Change {
  return {
    says: t('quote.did.change', { title }),
    at,
    send: (match, now) => write('patch', option, { id: now.id, option: of.id }, { title }, { match }),
    undo: () => renameOption({ ...of, title }, of.title),
  }
}

/** To a place among its neighbours, which counts from 1. */
export function moveOption(of: Option, position: number, was: number): Change {
  return {
    says: t('quote.did.change', { title: of.title }),
    at,
    send: (match, now) => write('patch', option, { id: now.id, option: of.id }, { position }, { match }),
    undo: () => moveOption(of, was, position),
  }
}

export function moveLine(of: DraftLine, to: string | null): Change {
  return {
    says: t('quote.did.change', { title: of.title }),
    at,
    send: (match, now) => write('patch', line, { id: now.id, line: of.line }, { option: to }, { match }),
    undo: () => moveLine({ ...of, option: to }, of.option),
  }
}

function said({ title, preselected, lines }: Option): NewOption {
  return { title, preselected, lines: lines.map((each) => each.line) }
}

function optionsOf(quote: Quote): Option[] {
  return quote.choices.flatMap((choice) => choice.options)
}

function newOf<Row extends { id: string }>(before: readonly Row[], after: readonly Row[]): Row | undefined {
  const known = new Set(before.map(({ id }) => id))
  return after.find(({ id }) => !known.has(id))
}
