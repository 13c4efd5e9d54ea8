import { keepText, keptText } from './typedText'

/** Returns the name under which this screen keeps what is typed in a form. */
export const formName = (form: string) => `${location.pathname} ${form}`

/** Returns whether something typed is kept under this name, so that its form opens again. */
export const isKept = (name: string) => keptText(name) !== ''

/** Returns the fields of a form that begin with what was typed under this name; what is typed from then on is kept. */
export function keptFields<Fields extends object>(name: string, begun: Fields): Fields {
  const before = JSON.stringify(begun)
  const stored = keptText(name)
  const fields = $state<Fields>({ ...begun, ...(stored ? JSON.parse(stored) : {}) })
  $effect(() => {
    const now = JSON.stringify(fields)
    keepText(name, now === before ? '' : now)
  })
  return fields
}

/** Forgets what was typed under this name, and closes its form. */
export function forgetFields(name: string, close: () => void): void {
  keepText(name, '')
  close()
}
