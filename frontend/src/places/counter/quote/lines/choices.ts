// The choices that a draft leaves to the customer, and the changes of them, each with the one that undoes it.
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
const choicesPath = 'quotes/{id}/choices' as const
const choicePath = 'quotes/{id}/choices/{choice}' as const
const optionsPath = 'quotes/{id}/choices/{choice}/options' as const
const optionPath = 'quotes/{id}/options/{option}' as const
const linePath = 'quotes/{id}/lines/{line}' as const

/** Returns every line of the draft once: those shown first, then those of options that are not proposed. */
export function linesOf(quote: Quote): DraftLine[] {
  const lineById = new Map<string, DraftLine>()
  for (const { line, title } of [...quote.kits, ...quote.extras, ...quote.outside])
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
    undo: (before, after) => {
      const added = newOf(before.choices, after.choices)
      return added ? removeChoice(added) : null
    },
  }
}

/** Removes a choice. Its lines stay on the quote; undone, the choice comes last. */
export function removeChoice(choice: Choice): Change {
  return {
    says: t('quote.did.take_off', { title: choice.title }),
    at,
    send: (match, now) =>
      write('delete', choicePath, { id: now.id, choice: choice.id }, undefined, { match }),
    undo: () => addChoice({ ...choice, options: choice.options.map(withoutId) }),
  }
}

export function changeChoice(choice: Choice, to: { title?: string; take?: Choice['take'] }): Change {
  return {
    says: t('quote.did.change', { title: choice.title }),
    at,
    send: (match, now) => write('patch', choicePath, { id: now.id, choice: choice.id }, to, { match }),
    undo: () => changeChoice({ ...choice, ...to }, { title: choice.title, take: choice.take }),
  }
}

export function addOption(choice: string, option: NewOption): Change {
  return {
    says: t('quote.did.add', { title: option.title }),
    at,
    send: (_match, now) => write('post', optionsPath, { id: now.id, choice }, option),
    undo: (before, after) => {
      const added = newOf(optionsOf(before), optionsOf(after))
      return added ? removeOption(choice, added) : null
    },
  }
}

/** Removes an option. Its lines stay on the quote; undone, the option comes last. */
export function removeOption(choice: string, of: Option): Change {
  return {
    says: t('quote.did.take_off', { title: of.title }),
    at,
    send: (match, now) => write('delete', optionPath, { id: now.id, option: of.id }, undefined, { match }),
    undo: () => addOption(choice, withoutId(of)),
  }
}

/** Sets what the workshop proposes: in a choice of one, this option replaces the one proposed before. */
export function propose(choice: Choice, of: Option, preselected: boolean): Change {
  return {
    says: t(preselected ? 'quote.did.proposed' : 'quote.did.not_proposed', { title: of.title }),
    at,
    send: (match, now) =>
      write('patch', optionPath, { id: now.id, option: of.id }, { preselected }, { match }),
    undo: () => {
      const was = choice.options.find(({ preselected }) => preselected)
      if (choice.take === 'one') return was ? propose(choice, was, true) : null
      return propose(choice, of, !preselected)
    },
  }
}

export function renameOption(of: Option, title: string): Change {
  return {
    says: t('quote.did.change', { title }),
    at,
    send: (match, now) => write('patch', optionPath, { id: now.id, option: of.id }, { title }, { match }),
    undo: () => renameOption({ ...of, title }, of.title),
  }
}

/** Moves an option to a place in its choice, counted from 1. */
export function moveOption(of: Option, position: number, was: number): Change {
  return {
    says: t('quote.did.change', { title: of.title }),
    at,
    send: (match, now) => write('patch', optionPath, { id: now.id, option: of.id }, { position }, { match }),
    undo: () => moveOption(of, was, position),
  }
}

export function moveLine(of: DraftLine, to: string | null): Change {
  return {
    says: t('quote.did.change', { title: of.title }),
    at,
    send: (match, now) => write('patch', linePath, { id: now.id, line: of.line }, { option: to }, { match }),
    undo: () => moveLine({ ...of, option: to }, of.option),
  }
}

/** The option as it is sent to be added again. */
function withoutId({ title, preselected, lines }: Option): NewOption {
  return { title, preselected, lines: lines.map(({ line }) => line) }
}

function optionsOf(quote: Quote): Option[] {
  return quote.choices.flatMap((choice) => choice.options)
}

function newOf<Row extends { id: string }>(before: readonly Row[], after: readonly Row[]): Row | undefined {
  const ids = new Set(before.map(({ id }) => id))
  return after.find(({ id }) => !ids.has(id))
}
