// Counts small parts on a scale. Same rules and worked cases as kitting/calc/weighing.py
// (fixtures/vectors/weigh.json). Masses are in the scale's unit, counts in pieces.
import { Exact, Refusal } from './exact'

export const SMALLEST_SAMPLE = 10

const [ONE, TWELVE] = [Exact.of(1n), Exact.of(12n)]
const [QUARTER, THREE] = [Exact.of(1n, 4n), Exact.of(3n)]

/**
 * A sample of `sample_count` pieces weighing `sample_mass` net, and the batch. `scale_step` is the scale's division,
 * `piece_variation` the relative standard deviation of one piece's mass ("0.01" is 1 %), `expected` the pieces that
 * should be there.
 */
export interface Weighing {
  sample_count: number
  sample_mass: string
  batch_mass: string
  tare?: string
  scale_step: string
  piece_variation: string
  expected?: number | null
}

/**
 * If trusted, `count` and `difference` (count less expected) are set, else `action` is hand_count. `estimate` is in
 * pieces to 0.01, `sd` its standard deviation to 0.001.
 */
export interface Weighed {
  estimate: string
  sd: string
  trust: boolean
  count: number | null
  action: 'hand_count' | null
  difference: number | null
}

/**
 * The intermediate figures as they are shown. `steady`: three standard deviations are at most half a piece. `either`:
 * the possible error, plus or minus, in pieces.
 */
export interface Workings {
  piece: string
  net: string
  fromPieces: string
  fromScale: string
  threeSd: string
  off: string
  steady: boolean
  either: number
}

interface Figures {
  piece: Exact
  net: Exact
  pieces: Exact
  fromPieces: Exact
  fromScale: Exact
}

/**
 * Returns the number of pieces on the scale and whether it can be trusted. Throws Refusal: `sample_too_small` (fewer
 * than ten pieces), `bad_mass` (a sample without mass, or a batch lighter than its tare).
 */
export function weigh(weighing: Weighing): Weighed {
  const { pieces, fromPieces, fromScale } = figures(weighing)
  const variance = fromPieces.plus(fromScale)
  const count = Number(pieces.units(0))
  const trust = isSteady(variance) && offOf(pieces).compared(QUARTER) <= 0
  const expected = weighing.expected ?? null
  return {
    estimate: pieces.rounded(2),
    sd: variance.root.rounded(3),
    trust,
    count: trust ? count : null,
    action: trust ? null : 'hand_count',
    difference: trust && expected !== null ? count - expected : null,
  }
}

/** Returns the figures behind the result. Throws like `weigh`. */
export function workings(weighing: Weighing): Workings {
  const { piece, net, pieces, fromPieces, fromScale } = figures(weighing)
  const variance = fromPieces.plus(fromScale)
  const threeSd = THREE.times(variance.root)
  return {
    piece: piece.plain(4),
    net: net.plain(4),
    fromPieces: fromPieces.root.rounded(3),
    fromScale: fromScale.root.rounded(3),
    threeSd: threeSd.rounded(3),
    off: offOf(pieces).rounded(2),
    steady: isSteady(variance),
    either: Number(threeSd.ceiling),
  }
}

function figures(weighing: Weighing): Figures {
  const count = Exact.of(BigInt(weighing.sample_count))
  const sample = Exact.read(weighing.sample_mass)
  const net = Exact.read(weighing.batch_mass).minus(Exact.read(weighing.tare ?? '0'))
  check(weighing, sample, net)
  const piece = sample.over(count)
  const pieces = net.over(piece)
  const share = pieces.over(count)
  const uneven = squared(Exact.read(weighing.piece_variation))
  // A uniform distribution over the scale's step: its standard deviation is the step over root twelve.
  const reading = squared(Exact.read(weighing.scale_step)).over(TWELVE).over(squared(piece))
  return {
    piece,
    net,
    pieces,
    fromPieces: uneven.times(pieces.plus(pieces.times(share))),
    fromScale: reading.times(ONE.plus(squared(share))),
  }
}

function check({ sample_count, sample_mass, batch_mass, tare }: Weighing, sample: Exact, net: Exact): void {
  if (sample_count < SMALLEST_SAMPLE) throw new Refusal('sample_too_small', String(sample_count))
  if (sample.numerator <= 0n) throw new Refusal('bad_mass', `sample ${sample_mass}`)
  if (net.numerator < 0n) throw new Refusal('bad_mass', `batch ${batch_mass} below tare ${tare}`)
}

const squared = (value: Exact) => value.times(value)

/** Compares the squares of three standard deviations and half a piece, so that no rounded root decides. */
function isSteady(variance: Exact): boolean {
  return Exact.of(36n).times(variance).compared(ONE) <= 0
}

/** Returns the distance to the nearest whole number. */
function offOf(pieces: Exact): Exact {
  return pieces.minus(Exact.of(pieces.units(0))).size
}
