"""The selling price of a part from its cost, by bands of unit cost (worked cases: fixtures/vectors/landed.json).

The price never falls as the cost rises: no multiplier is negative, and neither mode has a cliff.
"""

from dataclasses import dataclass
from decimal import Decimal, localcontext
from enum import StrEnum
from fractions import Fraction
from functools import lru_cache
from math import ceil

from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, Exact, rounded
from shop.calc.quantity import exact

_NOTHING = Decimal(0)


class MarkupMode(StrEnum):
    """`graduated` prices each slice of the cost with its own band's multiplier, like income tax.

    `floored` prices the whole cost with its band's multiplier, but never below the highest price of a lower band.
    """

    GRADUATED = "graduated"
    FLOORED = "floored"


@dataclass(frozen=True, slots=True)
class Band:
    """A multiplier for costs up to and including `up_to`. The last band is open: `up_to` is None."""

    up_to: Decimal | None
    multiplier: Decimal


@dataclass(frozen=True, slots=True)
class Markup:
    """A markup mode and its bands, from the lowest cost up."""

    mode: MarkupMode
    bands: tuple[Band, ...]


@dataclass(frozen=True, slots=True)
class BandShare:
    """The exact contribution of one band to a price: `cost` times `multiplier`.

    `floor` is the lower bands' price if that is higher, else None. The open band has `up_to` None.
    """

    bottom: Decimal
    up_to: Decimal | None
    cost: Decimal
    multiplier: Decimal
    price: Decimal
    floor: Decimal | None = None


@dataclass(frozen=True, slots=True)
class _Rung:
    """A band prepared for pricing: it covers costs above `bottom`, and `price_below` is the price at the bottom."""

    bottom: Decimal
    top: Decimal | None
    multiplier: Decimal
    price_below: Decimal


def sell_price(unit_cost: Exact, markup: Markup, exponent: int) -> Decimal:
    """The price of one unit at an exact `unit_cost`, rounded once. Refuses `bad_markup`, `not_exact`."""
    if not isinstance(unit_cost, Fraction):
        exact(unit_cost, "unit_cost")
    # A cost such as 10.06 / 3 is priced for all `pieces` together, so that everything before rounding is exact.
    cost, pieces = unit_cost.as_integer_ratio()
    with localcontext(EXACT):
        rung = next(rung for rung in _rungs(markup) if rung.top is None or cost <= rung.top * pieces)
        return rounded(Fraction(_price(rung, cost, pieces, markup.mode)) / pieces, exponent)


def up_to_step(price: Decimal, step: Decimal | None) -> Decimal:
    """The price, rounded up to a multiple of `step`; the same price without a step. `step` is above 0."""
    if step is None:
        return price
    return ceil(Fraction(price) / Fraction(step)) * step


def band_shares(unit_cost: Decimal, markup: Markup) -> tuple[BandShare, ...]:
    """The terms of `sell_price` before rounding: the slices of a graduated price, or the band of a floored one."""
    exact(unit_cost, "unit_cost")
    with localcontext(EXACT):
        rungs = _rungs(markup)
        if markup.mode is MarkupMode.GRADUATED:
            return tuple(_slice(rung, unit_cost) for rung in rungs if unit_cost > rung.bottom) or _nothing(rungs[0])
        rung = next(rung for rung in rungs if rung.top is None or unit_cost <= rung.top)
        price = unit_cost * rung.multiplier
        floor = rung.price_below if rung.price_below > price else None
        return (BandShare(rung.bottom, rung.top, unit_cost, rung.multiplier, max(price, rung.price_below), floor),)


def _slice(rung: _Rung, cost: Decimal) -> BandShare:
    slice_cost = (cost if rung.top is None else min(cost, rung.top)) - rung.bottom
    return BandShare(rung.bottom, rung.top, slice_cost, rung.multiplier, slice_cost * rung.multiplier)


def _nothing(rung: _Rung) -> tuple[BandShare, ...]:
    return (BandShare(rung.bottom, rung.top, _NOTHING, rung.multiplier, _NOTHING),)


def _price(rung: _Rung, cost: int, pieces: int, mode: MarkupMode) -> Decimal:
    below = rung.price_below * pieces
    if mode is MarkupMode.GRADUATED:
        return below + (cost - rung.bottom * pieces) * rung.multiplier
    return max(below, cost * rung.multiplier)


@lru_cache(maxsize=64)
def _rungs(markup: Markup) -> tuple[_Rung, ...]:
    _check(markup)
    rungs: list[_Rung] = []
    bottom = price = _NOTHING
    for band in markup.bands:
        rungs.append(_Rung(bottom, band.up_to, band.multiplier, price))
        if band.up_to is not None:
            if markup.mode is MarkupMode.GRADUATED:
                price += (band.up_to - bottom) * band.multiplier
            else:
                price = max(price, band.up_to * band.multiplier)
            bottom = band.up_to
    return tuple(rungs)


def _check(markup: Markup) -> None:
    if not markup.bands or markup.bands[-1].up_to is not None:
        raise CalculationError("bad_markup", "the last band has an end")
    bottom = _NOTHING
    for at, band in enumerate(markup.bands, start=1):
        if exact(band.multiplier, f"band {at}") < 0:
            raise CalculationError("bad_markup", f"band {at} multiplies by {band.multiplier}")
        if at < len(markup.bands):
            bottom = _end_above(bottom, band, at)


def _end_above(bottom: Decimal, band: Band, at: int) -> Decimal:
    if band.up_to is None or exact(band.up_to, f"band {at}") <= bottom:
        raise CalculationError("bad_markup", f"band {at} ends at {band.up_to}")
    return band.up_to
