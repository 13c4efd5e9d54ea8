// The table of all screens: place, address within the place, component. To add a screen, add a row here, its words in
// `lib/messages/`, and the component, which gets the named pieces of the address as props.
import type { Component } from 'svelte'
import { fits, type Place } from './lib/app/router.svelte'
import { learn } from './lib/text/text'

type Load = () => Promise<{ default: Component<never> }>

// Screens of several addresses: an import that is written twice is twice in the first JavaScript.
const owed: Load = () => import('./lib/components/OwedList.svelte')
const coolant: Load = () => import('./places/bay/coolant/Coolant.svelte')
const programs: Load = () => import('./places/office/programs/Programs.svelte')
const rules: Load = () => import('./places/office/rules/Rules.svelte')

const SCREENS: Record<Place, readonly (readonly [pattern: string, load: Load])[]> = {
  counter: [
    ['', () => import('./places/counter/Counter.svelte')],
    ['quote/new', () => import('./places/counter/quote/NewQuote.svelte')],
    ['quote/:id', () => import('./places/counter/quote/Quote.svelte')],
    ['quotes', () => import('./places/counter/quote/list/QuoteList.svelte')],
    ['customer/:id', () => import('./places/counter/customer/Customer.svelte')],
    ['owed', owed],
  ],
  parts: [
    ['', () => import('./places/parts/list/PullLists.svelte')],
    ['owed', owed],
    ['phone', () => import('./places/parts/count/WaitingCounts.svelte')],
    ['list/:id', () => import('./places/parts/list/PullList.svelte')],
    ['list/:id/report', () => import('./places/parts/list/CountReport.svelte')],
    ['list/:id/orders', () => import('./places/parts/orders/ProposedOrders.svelte')],
    ['kit/:id/first-count', () => import('./places/parts/first/FirstCount.svelte')],
    ['job/:id', () => import('./places/parts/readiness/Readiness.svelte')],
  ],
  bay: [
    ['', () => import('./places/bay/JobList.svelte')],
    ['job/:id', () => import('./places/bay/Job.svelte')],
    ['job/:id/coolant', coolant],
    ['job/:id/coolant/:name', coolant],
  ],
  office: [
    ['', () => import('./places/office/Office.svelte')],
    ['file/new/:kind', () => import('./places/office/import/NewFile.svelte')],
    ['file/:id', () => import('./places/office/import/ImportedFile.svelte')],
    ['headings', () => import('./places/office/import/Headings.svelte')],
    ['rates', () => import('./places/office/hours/ExchangeRates.svelte')],
    ['hours', () => import('./places/office/hours/OpeningHours.svelte')],
    ['own-data', () => import('./places/office/own/OwnData.svelte')],
    ['kit/new', () => import('./places/office/kits/NewKit.svelte')],
    ['kit/:id', () => import('./places/office/kits/Kit.svelte')],
    ['operations', () => import('./places/office/stock/OperationList.svelte')],
    ['operation/new', () => import('./places/office/stock/NewOperation.svelte')],
    ['operation/:id', () => import('./places/office/stock/Operation.svelte')],
    ['consumables', () => import('./places/office/stock/ConsumableList.svelte')],
    ['consumable/new', () => import('./places/office/stock/NewConsumable.svelte')],
    ['consumable/:id', () => import('./places/office/stock/Consumable.svelte')],
    ['consumable/:id/pack/:pack', () => import('./places/office/stock/Pack.svelte')],
    ['templates', () => import('./places/office/stock/TemplateList.svelte')],
    ['template/:id', () => import('./places/office/stock/Template.svelte')],
    ['replaced', () => import('./places/office/stock/ReplacedList.svelte')],
    ['replaced/new', () => import('./places/office/stock/NewReplaced.svelte')],
    ['replaced/:id', () => import('./places/office/stock/Replaced.svelte')],
    ['suppliers', () => import('./places/office/stock/SupplierList.svelte')],
    ['supplier/new', () => import('./places/office/stock/NewSupplier.svelte')],
    ['supplier/:id', () => import('./places/office/stock/Supplier.svelte')],
    ['programs', programs],
    ['programs/:id', programs],
    ['people', () => import('./places/office/people/People.svelte')],
    ['people/:id', () => import('./places/office/people/Person.svelte')],
    ['rules', rules],
    ['rules/change/:section', () => import('./places/office/rules/ChangeSection.svelte')],
    ['rules/:id', rules],
  ],
}

const WORDS: Record<Place, () => Promise<{ default: Parameters<typeof learn>[0] }>> = {
  counter: () => import('./lib/messages/en-GB/counter.ftl'),
  parts: () => import('./lib/messages/en-GB/parts.ftl'),
  bay: () => import('./lib/messages/en-GB/bay.ftl'),
  office: () => import('./lib/messages/en-GB/office.ftl'),
}

export interface Shown {
  screen: Component<Record<string, string>>
  named: Record<string, string>
}

/** Fetches the screen at an address within a place; null if there is none. */
export async function screenFor(place: Place, rest: string): Promise<Shown | null> {
  for (const [pattern, load] of SCREENS[place]) {
    const named = fits(pattern, rest)
    if (!named) continue
    const [module, words] = await Promise.all([load(), WORDS[place]()])
    learn(words.default)
    return { screen: module.default as unknown as Component<Record<string, string>>, named }
  }
  return null
}
