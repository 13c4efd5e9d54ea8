"""Vehicle attributes that are not recorded and change a quote: their possible values and the combinations of these.

An attribute counts if work depends on it, or whether a kit fits. Conditions that only choose parts from a box change
neither price nor hours. The value None stands for any value that no condition names: its price is known, its name is
not.
"""

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import reduce
from itertools import product
from operator import mul

from shop.calc.when import YES_OR_NO, Attributes, Condition

MOST_OFFERED = 8  # the most combinations that a customer is asked to choose from
MOST_PRICED = 64  # the most combinations that are all priced; above it only the likely lowest and highest are

Values = tuple[str | None, ...]
Combination = tuple[tuple[str, str | None], ...]
"""(attribute, value) pairs, in the order of the attributes."""


@dataclass(frozen=True, slots=True)
class QuoteConditions:
    """The conditions of a quote by their effect. `values` are the values of an attribute that the shop knows.

    `work` decides which work is done, `fits` which vehicles a kit is for, `parts` which parts are taken from a box.
    """

    work: Sequence[Condition]
    fits: Sequence[Condition]
    parts: Sequence[Condition]
    values: Mapping[str, Iterable[str]]


def open_values(conditions: QuoteConditions, attributes: Attributes) -> dict[str, Values]:
    """Maps each attribute that is not recorded and may change the quote to its possible values, both sorted, None last.

    If all conditions on an attribute name the same values, the case without them is possible too. It is one of the
    shop's other values, "no" for "yes", or None. An attribute that no work depends on needs at least two values.
    """
    values_by_attribute: dict[str, Values] = {}
    for attribute in sorted({condition["attribute"] for condition in (*conditions.work, *conditions.fits)}):
        if attributes.get(attribute):
            continue
        values = _values(attribute, conditions)
        if len(values) > 1:
            values_by_attribute[attribute] = values
    return values_by_attribute


def _values(attribute: str, conditions: QuoteConditions) -> Values:
    work, fits, parts = (_sets(attribute, group) for group in (conditions.work, conditions.fits, conditions.parts))
    named = frozenset[str]().union(*work, *fits, *parts)
    if not work:
        return tuple(sorted(named)) if len(set(fits)) > 1 else ()
    alike = len({*work, *fits}) == 1 and named == work[0]
    if not alike:
        return tuple(sorted(named))
    more = named.union(conditions.values.get(attribute, ()))
    if more == named:
        more = named.union(YES_OR_NO[value] for value in named if value in YES_OR_NO)
    return tuple(sorted(more)) if more != named else (*sorted(named), None)


def _sets(attribute: str, conditions: Sequence[Condition]) -> list[frozenset[str]]:
    return [frozenset(condition["in"]) for condition in conditions if condition["attribute"] == attribute]


def count(values: Mapping[str, Values]) -> int:
    """The number of combinations of the values; 1 if nothing is open."""
    return reduce(mul, (len(options) for options in values.values()), 1)


def combinations(values: Mapping[str, Values]) -> tuple[Combination, ...]:
    """All combinations, with the last attribute changing fastest; a single empty one if nothing is open."""
    return tuple(tuple(zip(values, choice, strict=True)) for choice in product(*values.values()))


def deciding_values(values: Mapping[str, Values], outcome: Callable[[Combination], Hashable]) -> dict[str, Values]:
    """The attributes that change the outcome in some combination of the others.

    `outcome` is also called with an attribute left out. An attribute all of whose values give one outcome still decides
    if leaving it out gives another.
    """
    remaining = dict(values)
    for attribute in values:
        others = {name: options for name, options in remaining.items() if name != attribute}
        if all(_alike(combination, attribute, remaining, outcome) for combination in combinations(others)):
            del remaining[attribute]
    return remaining


def _alike(
    combination: Combination, attribute: str, values: Mapping[str, Values], outcome: Callable[[Combination], Hashable]
) -> bool:
    with_each = {outcome(_with(combination, attribute, value, values)) for value in values[attribute]}
    return len(with_each) == 1 and with_each == {outcome(combination)}


def _with(combination: Combination, attribute: str, value: str | None, values: Mapping[str, Values]) -> Combination:
    chosen = {**dict(combination), attribute: value}
    return tuple((name, chosen[name]) for name in values if name in chosen)


def applied(combination: Combination, attributes: Attributes) -> dict[str, str]:
    """The vehicle's attributes, updated with the combination's named values."""
    return {**attributes, **{name: value for name, value in combination if value is not None}}


def nameable(combination: Combination) -> bool:
    """True if every value has a name and can therefore be recorded."""
    return all(value is not None for _, value in combination)


def extremes(
    values: Mapping[str, Values], amount: Callable[[Combination], Decimal], fits: Callable[[Combination], bool]
) -> tuple[Combination, ...]:
    """The combinations of the lowest and the highest amount, by coordinate descent: one value changes at a time.

    They are exact if each value adds the same amount whatever the others are. Work shared by two values makes them
    estimates, which is enough for a price range. A combination that does not fit ranks last in both searches.
    """
    low = _descended(values, lambda combination: (fits(combination), -amount(combination)))
    high = _descended(values, lambda combination: (fits(combination), amount(combination)))
    return (low,) if low == high else (low, high)


def _descended(values: Mapping[str, Values], rank: Callable[[Combination], tuple[bool, Decimal]]) -> Combination:
    best: Combination = tuple((attribute, options[0]) for attribute, options in values.items())
    while True:
        before = rank(best)
        for attribute in values:
            best = max((best, *(_with(best, attribute, value, values) for value in values[attribute])), key=rank)
        if rank(best) == before:
            return best
