// Keeps what a person typed in an open form on this tab, so that no interruption loses it: another screen, a reload,
// a browser that a call pushed aside. What is saved or cancelled is forgotten, and all of it when the person changes.
const MARK = 'typed '
const names = new WeakMap<Element, string>() // of the forms

/** Returns the value that was kept under this name; empty for none. */
export function keptText(name: string): string {
  try {
    return sessionStorage.getItem(MARK + name) ?? ''
  } catch {
    return '' // a browser may forbid it
  }
}

export function keepText(name: string, text: string): void {
  try {
    if (text) sessionStorage.setItem(MARK + name, text)
    else sessionStorage.removeItem(MARK + name)
  } catch {
    // then it lasts as long as the form is on the screen
  }
}

export function nameForm(form: Element, name: string): void {
  names.set(form, name)
}

/** Forgets what was typed in this form. */
export function forgetForm(form: Element): void {
  const name = names.get(form)
  if (name) keepText(name, '')
}

/** Forgets everything, because another person uses this tab. */
export function forgetTypedText(): void {
  try {
    sessionStorage.clear() // holds nothing else
  } catch {
    // nothing was kept
  }
}
