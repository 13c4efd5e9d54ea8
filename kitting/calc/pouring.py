"""Litres as people pour them, and degrees as they read them; the exact figures stay in how they were worked out.

A jug shows tenths of a litre, a small one hundredths. A refractometer and a customer read whole degrees and per cents.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil

from kitting.calc.coolant import Mix
from shop.calc.money import rounded

SMALL = Decimal(1)  # litres: below it hundredths count


@dataclass(frozen=True, slots=True)
class PouredVolumes:
    """The litres to pour for a mix that can be reached. The parts add up to `fill`."""

    fill: Decimal
    concentrate: Decimal
    water: Decimal
    premix: Decimal
    premix_concentrate: Decimal
    premix_water: Decimal


def volumes_to_pour(mix: Mix) -> PouredVolumes | None:
    """None where the target is out of reach."""
    if mix.concentrate is None or mix.premix is None or mix.premix_water is None:
        return None
    fill, concentrate, water = parts(mix.fill, mix.concentrate)
    _, premix, beside = parts(mix.fill, mix.premix)
    none, with_water = fill - fill, bool(mix.premix_water)
    return PouredVolumes(
        fill=fill,
        concentrate=concentrate,
        water=water,
        premix=premix,
        premix_concentrate=none if with_water else beside,
        premix_water=beside if with_water else none,
    )


def parts(fill: Decimal, part: Decimal) -> tuple[Decimal, Decimal, Decimal]:
    """The fill, the part and the rest, which add up as they are poured."""
    places = _places(fill)
    whole, portion = rounded(fill, places), rounded(part, places)
    return whole, portion, whole - portion


def litres(exact: Decimal) -> Decimal:
    """A single volume."""
    return rounded(exact, _places(exact))


def drained_at_least(exact: Decimal, capacity: Decimal | None = None) -> Decimal:
    """Never less than has to run out, never more than the circuit holds, where that is known."""
    places = _places(exact)
    up = rounded(Fraction(ceil(exact.scaleb(places)), 10**places), places)
    return up if capacity is None else min(up, capacity)


def degrees(celsius: Decimal) -> Decimal:
    """Whole degrees, the warmer ones: no mix is said to stand more frost than it does."""
    return Decimal(ceil(celsius))


def percent(share: Decimal) -> Decimal:
    return rounded(share * 100, 0)


def _places(volume: Decimal) -> int:
    return 2 if volume < SMALL else 1
