// Calculates the refill of a cooling circuit after a partial drain. Same rules and worked cases as
// kitting/calc/coolant.py (fixtures/vectors/coolant.json). Volumes in litres, concentrations as shares of the volume,
// temperatures in degrees Celsius.
import { Exact, Refusal } from './exact'
import { freezePoint, type Glycol, SHARES } from './freezing'

export type Status = 'ok' | 'drain_more' | 'too_strong'

const LITRES = 3
const [NONE, ONE, THOUSAND] = [Exact.of(0n), Exact.of(1n), Exact.of(1000n)]
const [LEAST_TARGET, MOST_TARGET] = [Exact.read('0.30'), Exact.read('0.65')]

/** The input of a refill: capacity and concentration before, litres drained, and the target afterwards. */
export interface Refill {
  capacity_before: string
  drained: string
  residual_concentration: string
  target_concentration: string
  added_to_circuit?: string
  premix_concentration?: string
  aux_circuit?: string
  aux_allowance?: string
  order_allowance?: string
  top_up?: string
  glycol?: Glycol | null
}

/**
 * The litres to pour and to order. Unless `status` is ok, only `drain_at_least` (total litres to drain) is set. There
 * are two ways to fill: `concentrate` and `water`, or `premix` with concentrate or water.
 */
export interface Mix {
  status: Status
  residual: string
  capacity_after: string
  fill: string
  aux_premix: string
  premix_only_concentration: string | null
  target_freeze: string | null
  premix_only_freeze: string | null
  drain_at_least: string | null
  concentrate: string | null
  water: string | null
  premix: string | null
  premix_concentrate: string | null
  premix_water: string | null
  order_concentrate: string | null
  order_premix: string | null
}

/**
 * The refill in exact volumes. calculations.md calls them residual R, capacity afterwards V, fill F and concentrate
 * A.
 */
interface Circuit {
  before: Exact
  residual: Exact
  after: Exact
  strength: Exact
  target: Exact
  premix: Exact
  fill: Exact
  concentrate: Exact
  premixConcentrate: Exact
}

/**
 * Returns the mix that brings the circuit to its target. Throws Refusal: `target_out_of_range` (outside 0.30-0.65),
 * `drained_out_of_range` (outside 0-capacity), `premix_out_of_range` (not between 0 and 1), `residual_out_of_range`
 * (outside 0-1).
 */
export function refill(input: Refill): Mix {
  const circuit = circuitOf(input)
  check(input, circuit)
  const { residual, after, fill, strength, premix, target } = circuit
  const only = after.numerator ? residual.times(strength).plus(fill.times(premix)).over(after) : null
  const aux = read(input.aux_circuit).times(ONE.plus(read(input.aux_allowance, '0.05')))
  const status = statusOf(circuit)
  return {
    ...NOTHING,
    status,
    residual: residual.rounded(LITRES),
    capacity_after: after.rounded(LITRES),
    fill: fill.rounded(LITRES),
    aux_premix: aux.rounded(LITRES),
    premix_only_concentration: only?.rounded(SHARES) ?? null,
    target_freeze: freezePoint(target, input.glycol ?? null),
    premix_only_freeze: freezePoint(only, input.glycol ?? null),
    ...(status === 'ok' ? poured(circuit, input, aux) : { drain_at_least: drainAtLeast(circuit, status) }),
  }
}

/** Returns the litres of concentrate that reach the target, to 0.001, even if they do not fit into the circuit. */
export function concentrateFor(input: Refill): string {
  return circuitOf(input).concentrate.rounded(LITRES)
}

const NOTHING = {
  drain_at_least: null,
  concentrate: null,
  water: null,
  premix: null,
  premix_concentrate: null,
  premix_water: null,
  order_concentrate: null,
  order_premix: null,
}

const read = (text: string | undefined, absent = '0') => Exact.read(text ?? absent)

function circuitOf(input: Refill): Circuit {
  const before = read(input.capacity_before)
  const residual = before.minus(read(input.drained))
  const after = before.plus(read(input.added_to_circuit))
  const strength = read(input.residual_concentration)
  const target = read(input.target_concentration)
  const premix = read(input.premix_concentration, '0.5')
  const fill = after.minus(residual)
  const concentrate = after.times(target).minus(residual.times(strength))
  const short = ONE.minus(premix)
  // Concentrate to add to premix; negative when premix alone is too strong.
  const beside = short.numerator ? concentrate.minus(fill.times(premix)).over(short) : NONE
  return { before, residual, after, strength, target, premix, fill, concentrate, premixConcentrate: beside }
}

function check(input: Refill, { before, residual, strength, target, premix }: Circuit): void {
  const outside = (value: Exact, least: Exact, most: Exact) =>
    value.compared(least) < 0 || value.compared(most) > 0
  if (outside(target, LEAST_TARGET, MOST_TARGET))
    throw new Refusal('target_out_of_range', input.target_concentration)
  if (outside(residual, NONE, before)) throw new Refusal('drained_out_of_range', input.drained)
  if (premix.compared(NONE) <= 0 || premix.compared(ONE) >= 0)
    throw new Refusal('premix_out_of_range', input.premix_concentration ?? '')
  if (outside(strength, NONE, ONE)) throw new Refusal('residual_out_of_range', input.residual_concentration)
}

function statusOf({ concentrate, fill }: Circuit): Status {
  if (concentrate.compared(fill) > 0) return 'drain_more'
  return concentrate.numerator < 0n ? 'too_strong' : 'ok'
}

/** Returns the least total litres to drain so that pure concentrate or pure water reaches the target. */
function drainAtLeast({ before, after, target, strength }: Circuit, status: Status): string {
  const mayStay =
    status === 'drain_more'
      ? after.times(ONE.minus(target)).over(ONE.minus(strength))
      : after.times(target).over(strength)
  return Exact.of(before.minus(mayStay).times(THOUSAND).ceiling, 1000n).rounded(LITRES)
}

function poured(circuit: Circuit, input: Refill, aux: Exact): Partial<Mix> {
  const { fill, concentrate, premixConcentrate, premix: share, target } = circuit
  const beside = premixConcentrate.numerator >= 0n
  const exactPremix = beside ? fill.minus(premixConcentrate) : concentrate.over(share)
  // The last volume is the difference of the rounded ones, so the column always adds up.
  const [all, pure] = [litresText(fill), litresText(concentrate)]
  const extra = beside ? litresText(premixConcentrate) : NONE
  const premix = beside ? all.minus(extra) : litresText(exactPremix)
  const allowance = ONE.plus(read(input.order_allowance, '0.05'))
  const topUp = read(input.top_up)
  return {
    concentrate: pure.rounded(LITRES),
    water: all.minus(pure).rounded(LITRES),
    premix: premix.rounded(LITRES),
    premix_concentrate: extra.rounded(LITRES),
    premix_water: all.minus(premix).minus(extra).rounded(LITRES),
    order_concentrate: concentrate.times(allowance).plus(topUp.times(target)).rounded(LITRES),
    order_premix: exactPremix.times(allowance).plus(topUp).plus(aux).rounded(LITRES),
  }
}

const litresText = (litres: Exact) => Exact.read(litres.rounded(LITRES))
