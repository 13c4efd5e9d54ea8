"""Volumes rounded as people pour them, and degrees as they read them. Explanations keep the exact figures.

A jug shows tenths of a litre, a small one hundredths. Refractometers and customers use whole degrees and per cents.
"""

from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from math import ceil

from kitting.calc.coolant import Mix
from shop.calc.money import rounded

SMALL = Decimal(1)  # litres; smaller volumes are measured in hundredths


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
    """The volumes to pour for a mix; None if the target is out of reach."""
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
    """(fill, part, rest), rounded so that they add up."""
    places = _places(fill)
    whole, portion = rounded(fill, places), rounded(part, places)
    return whole, portion, whole - portion


def litres(exact: Decimal) -> Decimal:
    """One volume, rounded as people pour it."""
    return rounded(exact, _places(exact))


def drained_at_least(exact: Decimal, capacity: Decimal | None = None) -> Decimal:
    """The volume rounded up, but never above the circuit's capacity if that is known."""
    places = _places(exact)
    up = rounded(Fraction(ceil(exact.scaleb(places)), 10**places), places)
    return up if capacity is None else min(up, capacity)


def degrees(celsius: Decimal) -> Decimal:
    """Whole degrees, rounded up to the warmer one: a mix never promises more frost protection than it has."""
    return Decimal(ceil(celsius))


def percent(share: Decimal) -> Decimal:
    """The share in whole per cent."""
    return rounded(share * 100, 0)


def _places(volume: Decimal) -> int:
    return 2 if volume < SMALL else 1
