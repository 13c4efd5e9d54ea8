// The addresses within the app: the one list of links for screens.
import { session } from './session.svelte'

const within = (rest: string) => `/${session.slug}/${rest}`

export const address = {
  quote: (id: string) => within(`counter/quote/${id}`),
  quotesOf: (kind: 'customer' | 'vehicle' | 'kit' | 'part', id: string) =>
    within(`counter/quotes?${kind}=${id}`),
  customer: (id: string) => within(`counter/customer/${id}`),
  list: (id: string) => within(`parts/list/${id}`),
  job: (id: string) => within(`bay/job/${id}`),
  readiness: (id: string) => within(`parts/job/${id}`),
  coolant: (id: string, name: string) => within(`bay/job/${id}/coolant/${encodeURIComponent(name)}`),
  firstCount: (id: string) => within(`parts/kit/${id}/first-count`),
  kit: (id: string) => within(`office/kit/${id}`),
  newKit: () => within('office/kit/new'),
  kitCopy: (id: string) => within(`office/kit/new?copy=${id}`),
  operations: () => within('office/operations'),
  operation: (id: string) => within(`office/operation/${id}`),
  operationCopy: (id: string) => within(`office/operation/new?copy=${id}`),
  templates: () => within('office/templates'),
  template: (id: string) => within(`office/template/${id}`),
  templateCopy: (id: string) => within(`office/template/new?copy=${id}`),
  consumables: () => within('office/consumables'),
  consumable: (id: string) => within(`office/consumable/${id}`),
  consumableCopy: (id: string) => within(`office/consumable/new?copy=${id}`),
  pack: (id: string, pack: string) => within(`office/consumable/${id}/pack/${pack}`),
  replacedNumbers: () => within('office/replaced'),
  replacedNumber: (id: string) => within(`office/replaced/${id}`),
  suppliers: () => within('office/suppliers'),
  supplierCopy: (id: string) => within(`office/supplier/new?copy=${id}`),
  supplier: (id: string) => within(`office/supplier/${id}`),
  person: (id: string) => within(`office/people/${id}`),
  ruleSet: (id: string) => within(`office/rules/${id}`),
  headings: () => within('office/headings'),
  newFile: (kind: string) => within(`office/file/new/${kind}`),
  file: (id: string) => within(`office/file/${id}`),
}
