"""A price range for the phone: the calculation named range (fixtures/vectors/range.json).

Units: totals in money of one currency with tax, hours as billed. Only two digits are spoken, so the step of an amount
depends on its own size and never on the currency's decimal places.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction
from math import ceil, floor

from shop.calc.errors import CalculationError
from shop.calc.money import EXACT
from shop.calc.quantity import exact
from shop.calc.reason import Reason

SPOKEN_DIGITS = 2
_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class Possibilities:
    """The total and the hours of each combination of what is still undecided.

    `if_it_happens` is the sum of the caps of all conditional lines.
    """

    totals: tuple[Decimal, ...]
    hours: tuple[Decimal, ...]
    if_it_happens: Decimal = _NOTHING


@dataclass(frozen=True, slots=True)
class PriceRange:
    """Whole numbers. If `low` and `high` are equal, one figure is spoken.

    `steps` hold `least` (total, step, spoken), `most` (total, if_it_happens, step, spoken) and `hours` (least, most).
    """

    low: Decimal
    high: Decimal
    hours_low: Decimal
    hours_high: Decimal
    steps: tuple[Reason, ...]


def price_range(possible: Possibilities) -> PriceRange:
    """The lowest and the highest price and hours, rounded outwards.

    Refuses `no_totals` (the list that is empty: totals or hours), `negative_total` (the figure), `not_exact`.
    """
    _check(possible)
    least, most = min(possible.totals), max(possible.totals)
    with localcontext(EXACT):
        highest = most + possible.if_it_happens
    low_step, high_step = _step(least), _step(highest)
    low = Decimal(floor(Fraction(least) / low_step) * low_step)
    high = Decimal(ceil(Fraction(highest) / high_step) * high_step)
    hours_least, hours_most = min(possible.hours), max(possible.hours)
    return PriceRange(
        low=low,
        high=high,
        hours_low=Decimal(floor(hours_least)),
        hours_high=Decimal(ceil(hours_most)),
        steps=(
            Reason.of("least", total=least, step=low_step, spoken=low),
            Reason.of("most", total=most, if_it_happens=possible.if_it_happens, step=high_step, spoken=high),
            Reason.of("hours", least=hours_least, most=hours_most),
        ),
    )


def _step(amount: Decimal) -> int:
    """The power of ten that leaves the spoken digits of `amount`: 100 for 4132.50; at least 1."""
    places = len(str(floor(amount)))
    return int(10 ** max(places - SPOKEN_DIGITS, 0))


def _check(possible: Possibilities) -> None:
    _check_each("totals", "total", possible.totals)
    _check_each("hours", "hours", possible.hours)
    _check_each("if_it_happens", "if_it_happens", (possible.if_it_happens,))


def _check_each(list_name: str, name: str, figures: Sequence[Decimal]) -> None:
    if not figures:
        raise CalculationError("no_totals", list_name)
    for figure in figures:
        if exact(figure, name) < 0:
            raise CalculationError("negative_total", f"{name} {figure}")
