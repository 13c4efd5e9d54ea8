// Exact rational numbers of unlimited length, like fractions.Fraction on the server. Quantities enter and leave as
// plain decimal text and never pass through a binary float.

const PLAIN = /^(-?)(\d+)(?:\.(\d+))?$/
const FINE = 10n ** 40n

/** The error of an impossible calculation: the server's `code`, and the figure that caused it. */
export class Refusal extends Error {
  constructor(
    readonly code: string,
    readonly culprit: string,
  ) {
    super(`${code}: ${culprit}`)
  }
}

export class Exact {
  private constructor(
    readonly numerator: bigint,
    readonly denominator: bigint,
  ) {}

  /** Returns `numerator` / `denominator` in lowest terms; only the numerator has a sign. */
  static of(numerator: bigint, denominator = 1n): Exact {
    if (denominator === 0n) throw new RangeError('division by zero')
    const common = divisor(numerator, denominator) * (denominator < 0n ? -1n : 1n)
    return new Exact(numerator / common, denominator / common)
  }

  /** Parses plain decimal text ("118.6" is 1186/10). Throws Refusal `not_exact` for anything else. */
  static read(text: string): Exact {
    const parts = PLAIN.exec(text)
    if (!parts) throw new Refusal('not_exact', text)
    const [, sign, whole, places = ''] = parts
    return Exact.of(BigInt(`${sign}${whole}${places}`), 10n ** BigInt(places.length))
  }

  plus(other: Exact): Exact {
    return Exact.of(
      this.numerator * other.denominator + other.numerator * this.denominator,
      this.denominator * other.denominator,
    )
  }
  minus(other: Exact): Exact {
    return this.plus(other.times(Exact.of(-1n)))
  }
  times(other: Exact): Exact {
    return Exact.of(this.numerator * other.numerator, this.denominator * other.denominator)
  }
  over(other: Exact): Exact {
    return Exact.of(this.numerator * other.denominator, this.denominator * other.numerator)
  }

  /** Returns a number below, equal to or above 0 as this is less than, equal to or more than `other`. */
  compared(other: Exact): number {
    const apart = this.minus(other).numerator
    return apart < 0n ? -1 : apart > 0n ? 1 : 0
  }
  get size(): Exact {
    return this.numerator < 0n ? Exact.of(-this.numerator, this.denominator) : this
  }

  /** Returns the number in units of the last of `places` decimals, rounded half away from zero. */
  units(places: number): bigint {
    const { numerator, denominator } = this.size
    const units = (2n * numerator * 10n ** BigInt(places) + denominator) / (2n * denominator)
    return this.numerator < 0n ? -units : units
  }

  /** Formats with exactly `places` decimals, rounded half away from zero; never "-0". */
  rounded(places: number): string {
    const units = this.units(places)
    const digits = String(units < 0n ? -units : units).padStart(places + 1, '0')
    const cut = digits.length - places
    const whole = `${units < 0n ? '-' : ''}${digits.slice(0, cut)}`
    return places ? `${whole}.${digits.slice(cut)}` : whole
  }

  /** Formats like `rounded` without trailing zeros: "2.5". */
  plain(places: number): string {
    const written = this.rounded(places)
    return written.includes('.') ? written.replace(/\.?0+$/, '') : written
  }

  /** Returns the smallest whole number that is not below this. */
  get ceiling(): bigint {
    const floor = this.numerator / this.denominator
    return floor * this.denominator < this.numerator ? floor + 1n : floor
  }

  /** Returns the square root, truncated to 40 decimals. The number must not be negative. */
  get root(): Exact {
    return Exact.of(wholeRoot((this.numerator * FINE ** 2n) / this.denominator), FINE)
  }
}

function divisor(first: bigint, other: bigint): bigint {
  let [large, small] = [first < 0n ? -first : first, other < 0n ? -other : other]
  while (small) [large, small] = [small, large % small]
  return large
}

/** Returns the largest whole number whose square is at most `square` (Newton's method from above). */
function wholeRoot(square: bigint): bigint {
  if (square < 2n) return square
  let root = 1n << BigInt(Math.ceil(square.toString(2).length / 2))
  for (;;) {
    const next = (root + square / root) / 2n
    if (next >= root) return root
    root = next
  }
}
