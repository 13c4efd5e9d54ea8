"""The surcharge on fitting parts that the customer brings: a share of the hours of the work that fits them.

Worked cases: fixtures/vectors/supplied.json. Units: hours; rates are money an hour.
"""

from collections.abc import Collection, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal

from shop.calc.errors import CalculationError
from shop.calc.money import rounded

NOTHING, ONE = Decimal(0), Decimal(1)


@dataclass(frozen=True, slots=True)
class FittingWork:
    """The hours that are charged for one operation."""

    code: str
    skill: str
    hours: Decimal


@dataclass(frozen=True, slots=True)
class Surcharge:
    """The surcharge of one skill: `hours` on top of the `fitting_hours`, at the skill's rate."""

    skill: str
    fitting_hours: Decimal
    hours: Decimal
    rate: Decimal
    price: Decimal


def surcharge_supplied(
    work: Sequence[FittingWork], fitting: Collection[str], share: Decimal, rates: Mapping[str, Decimal], exponent: int
) -> tuple[Surcharge, ...]:
    """One surcharge a skill, in the order of `rates`: the share of its hours, rounded to 0.1; none below that.

    An operation counts once, however many of the customer's parts it fits; a code without work counts nothing.
    Refuses `bad_share` (outside 0 to 1), `negative_hours` and `unknown_rate`.
    """
    if not NOTHING <= share <= ONE:
        raise CalculationError("bad_share", str(share))
    for operation in work:
        if operation.hours < 0:
            raise CalculationError("negative_hours", operation.code)
        if operation.skill not in rates:
            raise CalculationError("unknown_rate", operation.skill)
    return tuple(
        Surcharge(skill, fitting_hours, hours, rate, rounded(hours * rate, exponent))
        for skill, rate in rates.items()
        if (fitting_hours := _hours(work, skill, fitting)) and (hours := rounded(fitting_hours * share, 1)) > 0
    )


def _hours(work: Sequence[FittingWork], skill: str, fitting: Collection[str]) -> Decimal:
    return sum((done.hours for done in work if done.skill == skill and done.code in fitting), NOTHING)
