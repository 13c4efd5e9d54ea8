// The components of a quote's screen that are loaded when first shown. `fetchAhead` loads them while the person
// reads.
export const addPanel = () => import('./lines/AddPanel.svelte')
export const customerPicker = () => import('./parties/CustomerPicker.svelte')
export const vehiclePicker = () => import('./parties/VehiclePicker.svelte')
export const vehicleForm = () => import('./parties/VehicleForm.svelte')
export const choices = () => import('./lines/Choices.svelte')
export const jobChange = () => import('./lines/JobChange.svelte')
export const labour = () => import('./lines/Labour.svelte')
export const labourForm = () => import('./lines/LabourForm.svelte')
export const linkList = () => import('./send/LinkList.svelte')
export const landedCosts = () => import('./prices/LandedCosts.svelte')
export const figureExplanation = () => import('./prices/FigureExplanation.svelte')
export const outsideWork = () => import('./lines/OutsideWork.svelte')
export const kitsOutside = () => import('./lines/KitsOutside.svelte')
export const contingencies = () => import('./lines/Contingencies.svelte')
export const contingencyForm = () => import('./lines/ContingencyForm.svelte')
export const photographForm = () => import('./lines/PhotographForm.svelte')
export const linePhotographs = () => import('./lines/LinePhotographs.svelte')
export const extras = () => import('./lines/Extras.svelte')
export const earlierVersion = () => import('./send/EarlierVersion.svelte')
export const draftActions = () => import('./send/DraftActions.svelte')
export const openQuestions = () => import('./header/OpenQuestions.svelte')
export const discount = () => import('./prices/Discount.svelte')
export const possiblePrices = () => import('./header/PossiblePrices.svelte')
export const operations = () => import('./lines/Operations.svelte')
export const versionChanges = () => import('./header/VersionChanges.svelte')
export const conflict = () => import('./conflict/Conflict.svelte')
export const newerRules = () => import('./header/NewerRules.svelte')
export const overrideForm = () => import('./prices/OverrideForm.svelte')
export const suppliedMark = () => import('./lines/SuppliedMark.svelte')
export const returnMark = () => import('./lines/ReturnMark.svelte')
export const needForm = () => import('./lines/NeedForm.svelte')
export const sentPanel = () => import('./send/SentPanel.svelte')
export const questionList = () => import('./send/QuestionList.svelte')
export const acceptedJob = () => import('../job/AcceptedJob.svelte')
export const spokenForm = () => import('./send/SpokenForm.svelte')

/** Loads the components that most quotes show, while the figures are fetched. */
export function fetchAlongside(): void {
  for (const load of [possiblePrices, openQuestions, discount, choices, labour, draftActions])
    load().catch(() => {})
}

export function fetchAhead(editable: boolean): void {
  const loads = editable
    ? [
        operations,
        extras,
        overrideForm,
        addPanel,
        customerPicker,
        vehiclePicker,
        vehicleForm,
        figureExplanation,
      ]
    : [operations, extras, linkList, sentPanel, figureExplanation]
  const fetch = () => void Promise.all(loads.map((load) => load())).catch(() => {})
  if ('requestIdleCallback' in window) requestIdleCallback(fetch, { timeout: 2000 })
  else setTimeout(fetch, 500)
}
