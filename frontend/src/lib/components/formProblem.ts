import { getContext, hasContext, setContext } from 'svelte'
import type { Problem } from '../api/client'

/** The refusal of a form's last request, shared by the form with its fields. Each field shows the errors of its pointers. */
export class FormProblem {
  private readonly pointers = new Set<string>()

  constructor(private readonly current: () => Problem | null | undefined) {}

  /** Notes that a field shows the errors of these pointers, and returns the words of the first. */
  errorAt(...pointers: readonly string[]): string | undefined {
    for (const pointer of pointers) this.pointers.add(pointer)
    return this.current()?.errors?.find((error) => pointers.includes(error.pointer.slice(1)))?.detail
  }

  /** The refusal without what fields show; null where they show all of it. */
  get elsewhere(): Problem | null {
    const problem = this.current()
    if (!problem?.errors?.length) return problem ?? null
    const errors = problem.errors.filter(({ pointer }) => !this.pointers.has(pointer.slice(1)))
    return errors.length ? { ...problem, errors } : null
  }
}

/** Begins at the first error that a field or a group of choices of the form shows. */
export function goToFirstError(form: HTMLFormElement | undefined): void {
  const bad = form?.querySelector<HTMLElement>('.field.bad')
  bad?.scrollIntoView({ block: 'nearest' })
  const control = bad?.querySelector<HTMLElement>('input, select, textarea')
  ;(control ?? bad)?.focus({ preventScroll: true })
}

const KEY = Symbol('formProblem')

export const shareProblem = (current: () => Problem | null | undefined): FormProblem =>
  setContext(KEY, new FormProblem(current))

export const problemOfForm = (): FormProblem | undefined =>
  hasContext(KEY) ? getContext<FormProblem>(KEY) : undefined
