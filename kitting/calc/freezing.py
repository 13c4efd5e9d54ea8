"""Freeze points of glycol and water mixes, and the concentration from a refractometer's reading in degrees.

Concentrations are shares of the volume, temperatures degrees Celsius. Between the points of the table the figures are
interpolated linearly (the calculation of coolant).
"""

import re
from decimal import Decimal
from fractions import Fraction
from typing import Literal

from shop.calc.errors import CalculationError
from shop.calc.money import rounded

Glycol = Literal["ethylene", "propylene"]
GLYCOLS: tuple[Glycol, ...] = ("ethylene", "propylene")

SHARES = 4
DEGREES = 1

_NAMED = re.compile(r"\b(?:mono)?(ethylene|propylene)[ -]?glycol\b", re.IGNORECASE)
_FREEZE = {
    "ethylene": "-3.6 -6.2 -9.0 -12.1 -15.7 -19.9 -24.8 -30.5 -37.1 -44.4 -52.0",
    "propylene": "-3.4 -5.2 -7.4 -10.0 -13.1 -16.9 -21.5 -27.0 -33.7 -41.6 -51.1",
}
"""Freeze points from 10 % to 60 % in steps of 5 %."""


def freeze_point(concentration: Fraction | None, glycol: Glycol | None) -> Decimal | None:
    """The freeze point to 0.1 degrees; None without a glycol, below 10 % or above 60 %."""
    if glycol is None or concentration is None or not Fraction(1, 10) <= concentration <= Fraction(6, 10):
        return None
    points = _points(glycol)
    place = concentration * 20 - 2
    below = min(int(place), len(points) - 2)
    return rounded(points[below] + (place - below) * (points[below + 1] - points[below]), DEGREES)


def concentration_at(freeze: Decimal, glycol: Glycol) -> Decimal:
    """The concentration whose freeze point is `freeze`, to 0.0001: the inverse of `freeze_point`.

    Refuses `residual_out_of_range` outside the table.
    """
    points, temperature = _points(glycol), Fraction(freeze)
    if not points[-1] <= temperature <= points[0]:
        raise CalculationError("residual_out_of_range", str(freeze))
    above = next(at for at, point in enumerate(points[1:], start=1) if point <= temperature)
    place = above - 1 + (points[above - 1] - temperature) / (points[above - 1] - points[above])
    return rounded((place + 2) / 20, SHARES)


def warmest_and_coldest(glycol: Glycol) -> tuple[Decimal, Decimal]:
    """The ends of the table: the range of a valid reading in degrees."""
    first, *_, last = _FREEZE[glycol].split()
    return Decimal(first), Decimal(last)


def _points(glycol: Glycol) -> list[Fraction]:
    return [Fraction(point) for point in _FREEZE[glycol].split()]


def glycol_named(specification: str) -> Glycol | None:
    """The glycol that a consumable's specification names; None if it names none or both."""
    named = {word.lower() for word in _NAMED.findall(specification)}
    return next((glycol for glycol in GLYCOLS if named == {glycol}), None)
