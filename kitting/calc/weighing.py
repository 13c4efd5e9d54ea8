"""Counting small parts on a scale: the calculation named weigh (fixtures/vectors/weigh.json).

Units: masses in the scale's unit; counts in pieces. A count is given only if the scale is precise enough for it;
otherwise somebody counts by hand.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import isqrt
from typing import Literal

from shop.calc.errors import CalculationError
from shop.calc.money import rounded

SMALLEST_SAMPLE = 10
_FINE = 10**40


@dataclass(frozen=True, slots=True)
class Weighing:
    """A sample of `sample_count` pieces with net mass `sample_mass`, and the batch to be counted.

    `scale_step` is the scale's division, `piece_variation` the relative standard deviation of one piece's mass (0.01 is
    1 %), `expected` the expected number of pieces, if known.
    """

    sample_count: int
    sample_mass: Decimal
    batch_mass: Decimal
    scale_step: Decimal
    piece_variation: Decimal
    expected: int | None = None
    tare: Decimal = Decimal(0)


@dataclass(frozen=True, slots=True)
class WeighingResult:
    """`count` and `difference` (count less expected) if trusted; otherwise None, with `action` hand_count.

    `estimate` is in pieces to 0.01, `sd` its standard deviation to 0.001.
    """

    estimate: Decimal
    sd: Decimal
    trust: bool
    count: int | None
    action: Literal["hand_count"] | None
    difference: int | None


def weigh(weighing: Weighing) -> WeighingResult:
    """The estimated number of pieces on the scale, and whether it can be trusted.

    Refuses `sample_too_small` (fewer than ten pieces), `bad_mass` (a sample without mass, or a batch lighter than its
    tare).
    """
    _check(weighing)
    piece = Fraction(weighing.sample_mass) / weighing.sample_count
    pieces = Fraction(weighing.batch_mass - weighing.tare) / piece
    variance = _variance(weighing, piece, pieces)
    nearest = int(rounded(pieces, 0))
    # Three standard deviations must be within half a piece. Squared, so that the verdict needs no square root.
    trust = 36 * variance <= 1 and abs(pieces - nearest) <= Fraction(1, 4)
    expected = weighing.expected
    return WeighingResult(
        estimate=rounded(pieces, 2),
        sd=rounded(_root(variance), 3),
        trust=trust,
        count=nearest if trust else None,
        action=None if trust else "hand_count",
        difference=nearest - expected if trust and expected is not None else None,
    )


def _check(weighing: Weighing) -> None:
    if weighing.sample_count < SMALLEST_SAMPLE:
        raise CalculationError("sample_too_small", str(weighing.sample_count))
    if weighing.sample_mass <= 0:
        raise CalculationError("bad_mass", f"sample {weighing.sample_mass}")
    if weighing.batch_mass < weighing.tare:
        raise CalculationError("bad_mass", f"batch {weighing.batch_mass} below tare {weighing.tare}")


def _variance(weighing: Weighing, piece: Fraction, pieces: Fraction) -> Fraction:
    """The variance from the spread of the pieces and from the scale's step (uniform: step over root twelve)."""
    share = pieces / weighing.sample_count
    spread = Fraction(weighing.piece_variation) ** 2 * (pieces + pieces * share)
    reading = Fraction(weighing.scale_step) ** 2 / 12 / piece**2
    return spread + reading * (1 + share**2)


def _root(square: Fraction) -> Fraction:
    """The square root, truncated far below the digits shown, so that it never changes them."""
    return Fraction(isqrt(square.numerator * _FINE**2 // square.denominator), _FINE)
