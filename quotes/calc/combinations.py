"""Attributes of a vehicle that are not recorded and change the quote, their values, and the combinations of these.

An attribute counts where work depends on it, or whether a kit fits. What only picks parts out of a box changes neither
price nor hours. A value of None stands for any that is not named: what it comes to is known, its name is not.
"""

from collections.abc import Callable, Hashable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from functools import reduce
from itertools import product
from operator import mul

from shop.calc.when import YES_OR_NO, Attributes, Condition

MOST_OFFERED = 8  # combinations that a customer can be asked to choose from
MOST_PRICED = 64  # combinations that are all worked out; above, only what may be the lowest and the highest

Values = tuple[str | None, ...]
Combination = tuple[tuple[str, str | None], ...]
"""(attribute, value) of a combination, in the order of the attributes."""


@dataclass(frozen=True, slots=True)
class QuoteConditions:
    """The conditions of a quote by what they decide: `work` what is done, `fits` which vehicles a kit is for, `parts`
    what is taken from a box. `values` are those that the shop knows of an attribute."""

    work: Sequence[Condition]
    fits: Sequence[Condition]
    parts: Sequence[Condition]
    values: Mapping[str, Iterable[str]]


def open_values(conditions: QuoteConditions, attributes: Attributes) -> dict[str, Values]:
    """Attribute that is not recorded and may change the quote -> its possible values, both sorted, None last.

    Where all conditions on it name the same values, what happens without them is a possibility too: the shop's other
    values, "no" beside "yes", or None. Where no work depends on it there has to be a choice of values.
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
    """How many combinations the values have; 1 where nothing is open."""
    return reduce(mul, (len(options) for options in values.values()), 1)


def combinations(values: Mapping[str, Values]) -> tuple[Combination, ...]:
    """Every combination, the last attribute changing first; one without a value where nothing is open."""
    return tuple(tuple(zip(values, choice, strict=True)) for choice in product(*values.values()))


def deciding_values(values: Mapping[str, Values], outcome: Callable[[Combination], Hashable]) -> dict[str, Values]:
    """Those of the attributes that change the outcome in some combination of the others.

    `outcome` is asked with an attribute left out too: one whose values all come to the same still tells where that
    is not what comes of leaving it out.
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
    """The vehicle's attributes with the stated values."""
    return {**attributes, **{name: value for name, value in combination if value is not None}}


def nameable(combination: Combination) -> bool:
    """Whether every value has a name, so that it can be recorded."""
    return all(value is not None for _, value in combination)


def extremes(
    values: Mapping[str, Values], amount: Callable[[Combination], Decimal], fits: Callable[[Combination], bool]
) -> tuple[Combination, ...]:
    """The combinations of the lowest and the highest amount, found by coordinate descent: one value changes at a time.

    They are the lowest and the highest of all where each value adds the same whatever the others are. Work that two
    values share makes them estimates, which is what a range on the phone is. What does not fit comes last in both.
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
