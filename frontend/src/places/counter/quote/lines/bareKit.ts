import { formName } from '../../../../lib/app/keptFields.svelte'

interface BareKit {
  title: string
  code: string
  price: string
  hours: string
  cost: string
  days: string
  model: string
  ticked: string[]
}

export const EMPTY: BareKit = {
  title: '',
  code: '',
  price: '',
  hours: '',
  cost: '',
  days: '',
  model: '',
  ticked: [],
}

/** Returns the name under which the form of a kit without contents keeps what is typed. */
export const bareKitForm = () => formName('bare')
