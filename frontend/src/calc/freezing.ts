// Converts between the concentration of glycol in water and the temperature at which the mix begins to freeze. Same
// rules as kitting/calc/freezing.py. Concentrations are shares of the volume, temperatures degrees Celsius.
import { Exact, Refusal } from './exact'

export type Glycol = 'ethylene' | 'propylene'

export const SHARES = 4

/** Freeze points from 10 % to 60 % in steps of 5 %. */
const FREEZE: Record<Glycol, string> = {
  ethylene: '-3.6 -6.2 -9.0 -12.1 -15.7 -19.9 -24.8 -30.5 -37.1 -44.4 -52.0',
  propylene: '-3.4 -5.2 -7.4 -10.0 -13.1 -16.9 -21.5 -27.0 -33.7 -41.6 -51.1',
}
const [FIRST, LAST, TWENTY, TWO] = [Exact.of(1n, 10n), Exact.of(6n, 10n), Exact.of(20n), Exact.of(2n)]

/** Returns the freeze point to 0.1 degrees; null without a glycol, below 10 % or above 60 %. */
export function freezePoint(concentration: Exact | null, glycol: Glycol | null): string | null {
  if (!glycol || !concentration || concentration.compared(FIRST) < 0 || concentration.compared(LAST) > 0)
    return null
  const points = pointsOf(glycol)
  const place = concentration.times(TWENTY).minus(TWO)
  const below = Math.min(Number(place.numerator / place.denominator), points.length - 2)
  const [from, to] = [points[below] as Exact, points[below + 1] as Exact]
  return place
    .minus(Exact.of(BigInt(below)))
    .times(to.minus(from))
    .plus(from)
    .rounded(1)
}

/**
 * Returns the concentration, to 0.0001, that begins to freeze at `freeze` degrees. Throws Refusal
 * `residual_out_of_range` outside the table.
 */
export function concentrationAt(freeze: string, glycol: Glycol): string {
  const points = pointsOf(glycol)
  const target = Exact.read(freeze)
  const above = points.findIndex((point, at) => at > 0 && point.compared(target) <= 0)
  const [from, to] = [points[above - 1], points[above]]
  if (!from || !to || from.compared(target) < 0) throw new Refusal('residual_out_of_range', freeze)
  const place = Exact.of(BigInt(above - 1)).plus(from.minus(target).over(from.minus(to)))
  return place.plus(TWO).over(TWENTY).rounded(SHARES)
}

/** Returns the warmest and the coldest reading that the table covers. */
export function warmestAndColdest(glycol: Glycol): { warmest: string; coldest: string } {
  const points = pointsOf(glycol).map((point) => point.plain(1))
  return { warmest: points.at(0) ?? '', coldest: points.at(-1) ?? '' }
}

function pointsOf(glycol: Glycol): Exact[] {
  return FREEZE[glycol].split(' ').map((point) => Exact.read(point))
}
