// Rounds litres for pouring and degrees for reading. Same rules as kitting/calc/pouring.py.
import type { Mix } from './coolant'
import { Exact } from './exact'

/** The litres to pour for a mix within reach. The parts add up to `fill`. */
export interface Poured {
  fill: string
  concentrate: string
  water: string
  premix: string
  premix_concentrate: string
  premix_water: string
}

const ONE = Exact.of(1n)

export function poured(mix: Mix): Poured | null {
  if (mix.concentrate === null || mix.premix === null || mix.premix_water === null) return null
  const places = placesOf(mix.fill)
  const [fill, concentrate, premix] = [mix.fill, mix.concentrate, mix.premix].map((exact) =>
    Exact.read(exact).rounded(places),
  ) as [string, string, string]
  const left = (part: string) => Exact.read(fill).minus(Exact.read(part)).rounded(places)
  const none = Exact.of(0n).rounded(places)
  const water = Exact.read(mix.premix_water).numerator !== 0n
  return {
    fill,
    concentrate,
    water: left(concentrate),
    premix,
    premix_concentrate: water ? none : left(premix),
    premix_water: water ? left(premix) : none,
  }
}

/** Rounds one volume. */
export const litres = (exact: string): string => Exact.read(exact).rounded(placesOf(exact))

/** Rounds the litres to drain: never less than `exact`, never more than the circuit holds. */
export function drainedAtLeast(exact: string, capacity: string): string {
  const scale = 10n ** BigInt(placesOf(exact))
  const up = Exact.of(Exact.read(exact).times(Exact.of(scale)).ceiling, scale)
  return up.compared(Exact.read(capacity)) > 0 ? capacity : up.rounded(placesOf(exact))
}

/** Rounds up to whole degrees, so that no mix claims more frost protection than it has. */
export const warmer = (celsius: string): string => String(Exact.read(celsius).ceiling)

export const wholePercent = (share: string): string => Exact.read(share).times(Exact.of(100n)).rounded(0)

const placesOf = (volume: string): number => (Exact.read(volume).compared(ONE) < 0 ? 2 : 1)
