// Groups the labour of a quote by install stage, for folding.
import { plain } from '../../../../lib/text/decimals'
import type { Quote } from '../draft.svelte'

type Labour = Quote['labour']
type Operation = Labour['operations'][number]

interface LabourStage {
  title: string
  hours: string
  price: string
  /** The number of its first operation, counted over all labour. */
  from: number
  operations: Operation[]
}

/**
 * Returns the stages; none for an older sent version or if all work is of one stage: its operations stand unfolded.
 */
export function labourStages({
  operations,
  stages = [],
}: Pick<Labour, 'operations' | 'stages'>): LabourStage[] {
  if (stages.length < 2) return []
  const byKey = new Map(operations.map((operation) => [operation.key, operation]))
  let next = 1
  return stages.map(({ title, hours, price, keys }) => {
    const members = keys.flatMap((key) => byKey.get(key) ?? [])
    const from = next
    next += members.length
    return { title, hours, price, from, operations: members }
  })
}

/** Words the operations with their hours: "Sump off 0.9, sump cleaned 0.3". */
export function runOf(operations: readonly Operation[]): string {
  return operations.map(({ title, hours }) => `${title} ${plain(hours)}`).join(', ')
}
