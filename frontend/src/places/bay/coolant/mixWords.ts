// Words the mix of one circuit from the bay's measurements, without signal, in the sentences of the server's catalogue
// that come with a job's circuits. The server works out no mix: tests/kitting/mix_oracle.py is what this is held against.
import { concentrateFor, type Mix, type Refill, refill, type Status } from '../../../calc/coolant'
import { Exact, Refusal } from '../../../calc/exact'
import { concentrationAt, type Glycol, warmestAndColdest } from '../../../calc/freezing'
import { drainedAtLeast, litres, type Poured, poured, warmer, wholePercent } from '../../../calc/pouring'
import { amount } from '../../../lib/text/decimals'

/** A circuit in the answer of `circuits`. Concentrations are in per cent. */
export interface Circuit {
  title: string
  name: string
  capacity: string | null
  capacity_words: string
  added: string
  target: string
  premix: string
  glycol: Glycol | null
  mix_words: Readonly<Record<string, string>>
}

/** Litres drained, and the refractometer's reading in per cent or degrees. */
export interface Measured {
  drained: string
  reading: string
  scale: 'percent' | 'celsius'
}

export interface ExplanationText {
  title: string
  rule: string[]
  steps: { words: string; figure: string }[]
  result: string
}

export interface BayMix {
  status: Status
  words: string
  concentrate: string | null
  water: string | null
  fill: string
  stays: string
  residual: string
  after: string
  target: string
  protects: string | null
  protection_words: string
  premix: { premix: string; concentrate: string; water: string; words: string } | null
  premix_only: { percent: string; protects: string | null; words: string } | null
  remedy: Remedy | null
  how: ExplanationText
}
interface Remedy {
  drain_at_least: string
  drain_more: string
  then_fill: string
  fluid: 'concentrate' | 'water'
  why: string
  words: string
}

/** The reason for which there is no mix. `pointer` names the figure that caused it; empty if none did. */
export interface NoMix {
  pointer: '' | '/drained' | '/reading' | '/scale'
  title: string
  words: string
}

const HUNDRED = Exact.of(100n)
const LONG = 30 // decimals: no input has more

export function bayMix(circuit: Circuit, measured: Measured): { mix: BayMix } | { no: NoMix } {
  try {
    const input = givenOf(circuit, measured)
    return { mix: new MixWords(circuit, measured, input, refill(input)).shape() }
  } catch (refusal) {
    if (refusal instanceof Refusal) return { no: noMix(refusal, circuit, measured) }
    throw refusal
  }
}

function givenOf(circuit: Circuit, { drained, reading, scale }: Measured): Refill {
  if (circuit.capacity === null) throw new Refusal('capacity_unknown', circuit.name)
  return {
    capacity_before: circuit.capacity,
    drained: plain(drained),
    residual_concentration: scale === 'celsius' ? byDegrees(reading, circuit.glycol) : byPercent(reading),
    target_concentration: share(circuit.target),
    added_to_circuit: circuit.added,
    premix_concentration: share(circuit.premix),
    glycol: circuit.glycol,
  }
}

function byDegrees(reading: string, glycol: Glycol | null): string {
  if (!glycol) throw new Refusal('glycol_unknown', reading)
  return concentrationAt(reading, glycol)
}

function byPercent(reading: string): string {
  const read = Exact.read(reading)
  if (read.compared(Exact.of(0n)) < 0 || read.compared(HUNDRED) > 0)
    throw new Refusal('residual_out_of_range', reading)
  return share(reading)
}

function noMix({ code, culprit }: Refusal, circuit: Circuit, { scale }: Measured): NoMix {
  const { capacity, glycol, name, mix_words } = circuit
  const no = (pointer: NoMix['pointer'], key: string, facts: Facts = {}): NoMix => ({
    pointer,
    title: mix_words.cannot ?? '',
    words: filled(mix_words, key, facts),
  })
  if (code === 'capacity_unknown') return no('', 'capacity_unknown', { circuit: name.replaceAll('_', ' ') })
  if (code === 'glycol_unknown') return no('/scale', 'glycol_unknown')
  if (code === 'drained_out_of_range') return no('/drained', 'drained_too_much', { capacity: capacity ?? '' })
  if (code !== 'residual_out_of_range') throw new Refusal(code, culprit)
  if (scale === 'percent' || !glycol) return no('/reading', 'reading_percent')
  const { warmest, coldest } = warmestAndColdest(glycol)
  return no('/reading', 'reading_celsius', { warmest: plain(warmest), coldest: plain(coldest) })
}

/** Words one mix: rounded litres and degrees for pouring and reading, the exact ones in `how`. */
class MixWords {
  private readonly target: string
  private readonly poured: Poured | null

  constructor(
    private circuit: Circuit,
    private measured: Measured,
    private input: Refill,
    private mix: Mix,
  ) {
    this.target = circuit.target
    this.poured = poured(mix)
  }

  shape(): BayMix {
    const { mix, input, target, poured } = this
    return {
      status: mix.status,
      words: this.fillWords(),
      concentrate: poured && plain(poured.concentrate),
      water: poured && plain(poured.water),
      fill: plain(poured?.fill ?? litres(mix.fill)),
      stays: plain(mix.residual),
      residual: percent(input.residual_concentration),
      after: plain(mix.capacity_after),
      target,
      protects: text(mix.target_freeze),
      protection_words: this.protection(),
      premix: this.premix(),
      premix_only: this.premixOnly(),
      remedy: this.remedy(),
      how: {
        title: this.say('how.title', { circuit: this.circuit.title }),
        rule: [1, 2, 3].map((n) => this.say(`how.rule.${n}`)),
        steps: [...this.steps()].map(([words, figure]) => ({ words, figure })),
        result: this.result(),
      },
    }
  }

  private say(key: string, facts: Facts = {}): string {
    return filled(this.circuit.mix_words, key, facts)
  }
  private litres(figure: string): string {
    return this.say('how.litres', { litres: figure })
  }

  private fillWords(): string {
    const { mix, target, poured } = this
    if (!poured) return this.say(mix.status, { target })
    if (nothing(mix.fill)) return this.say('nothing', { target })
    return this.say('fill', { concentrate: plain(poured.concentrate), water: plain(poured.water) })
  }

  private protection(): string {
    const { target_freeze: freeze } = this.mix
    if (freeze) return this.say('protects', { degrees: plain(warmer(freeze)), percent: this.target })
    return this.say(this.circuit.glycol ? 'protects_beyond' : 'protects_unknown', { percent: this.target })
  }

  private result(): string {
    const { concentrate, water, drain_at_least, fill } = this.mix
    if (concentrate === null || water === null) return this.litres(plain(drain_at_least ?? fill))
    return this.say('how.result', { concentrate: plain(concentrate), water: plain(water) })
  }

  private premix(): BayMix['premix'] {
    const { poured } = this
    if (!poured || nothing(this.mix.fill)) return null
    const { premix, premix_concentrate: pure, premix_water: water } = poured
    const beside = nothing(pure) ? (nothing(water) ? 'alone' : 'water') : 'concentrate'
    const facts = {
      premix: plain(premix),
      percent: this.circuit.premix,
      litres: plain(nothing(pure) ? water : pure),
    }
    return {
      premix: plain(premix),
      concentrate: plain(pure),
      water: plain(water),
      words: this.say(`premix.${beside}`, facts),
    }
  }

  private premixOnly(): BayMix['premix_only'] {
    const { premix_only_concentration: reached, premix_only_freeze: freeze, fill } = this.mix
    if (reached === null || nothing(fill)) return null
    const facts = { percent: wholePercent(reached) }
    const words = freeze
      ? this.say('premix_only_protects', { degrees: plain(warmer(freeze)), ...facts })
      : this.say('premix_only', facts)
    return { percent: percent(reached), protects: text(freeze), words }
  }

  private remedy(): Remedy | null {
    const { drain_at_least, status } = this.mix
    if (drain_at_least === null) return null
    const { capacity_before, drained, added_to_circuit = '0' } = this.input
    const least = drainedAtLeast(drain_at_least, capacity_before)
    const more = less(least, drained)
    const fill = Exact.read(least).plus(Exact.read(added_to_circuit)).plain(LONG)
    const facts = { at_least: plain(least), more, fill, target: this.target }
    return {
      drain_at_least: plain(least),
      drain_more: more,
      then_fill: fill,
      fluid: status === 'drain_more' ? 'concentrate' : 'water',
      why: this.say(`${status}_why`, facts),
      words: this.say(`${status}_remedy`, facts),
    }
  }

  /** Yields the steps of the calculation in order: residual, fill, concentrate, rest. */
  private *steps(): Generator<[words: string, figure: string]> {
    const { input, mix, measured, target } = this
    const { capacity_before: capacity, drained, added_to_circuit: added = '0' } = input
    const [after, stays, fill] = [plain(mix.capacity_after), plain(mix.residual), plain(mix.fill)]
    const strength = percent(input.residual_concentration)
    yield [this.say('how.holds', { why: this.circuit.capacity_words }), this.litres(capacity)]
    if (!nothing(added)) yield [this.say('how.after', { capacity, added }), this.litres(after)]
    yield [this.say('how.stays', { capacity, drained }), this.litres(stays)]
    if (measured.scale === 'celsius') {
      const read = this.say('how.degrees', { degrees: plain(measured.reading) })
      yield [read, this.say('how.percent', { percent: strength })]
    }
    yield [this.say('how.fill', { after, stays }), this.litres(fill)]
    const concentrate = plain(concentrateFor(input))
    yield [this.say('how.concentrate', { after, target, stays, strength }), this.litres(concentrate)]
    if (mix.water !== null) {
      yield [this.say('how.water', { fill, concentrate }), this.litres(plain(mix.water))]
      if (mix.target_freeze !== null)
        yield [
          this.say('how.freezes', { target }),
          this.say('how.celsius', { degrees: plain(mix.target_freeze) }),
        ]
    }
    if (mix.drain_at_least === null) return
    const may_stay = less(capacity, mix.drain_at_least)
    yield [this.say(`how.may_stay.${mix.status}`, { after, target, strength }), this.litres(may_stay)]
    yield [this.say('how.drain', { capacity, may_stay }), this.litres(plain(mix.drain_at_least))]
  }
}

type Facts = Record<string, string>

/** Decimals are written as the reader's language writes them. */
function filled(words: Circuit['mix_words'], key: string, facts: Facts): string {
  return (words[key] ?? '').replace(/\{(\w+)\}/g, (_, name: string) => amount(facts[name] ?? ''))
}

const plain = (value: string) => Exact.read(value).plain(LONG)
const text = (value: string | null) => (value === null ? null : plain(value))
const nothing = (value: string) => Exact.read(value).numerator === 0n
const share = (value: string) => Exact.read(value).over(HUNDRED).plain(LONG)
const percent = (value: string) => Exact.read(value).times(HUNDRED).plain(LONG)
const less = (first: string, other: string) => Exact.read(first).minus(Exact.read(other)).plain(LONG)
