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


def open_values(asking: QuoteConditions, attributes: Attributes) -> dict[str, Values]:
    """Attribute that is not recorded and may change the quote -> its possible values, both sorted, None last.

    Where all conditions on it name the same values, what happens without them is a possibility too: the shop's other
    values, "no" beside "yes", or None. Where no work depends on it there has to be a choice of values.
    """
    found: dict[str, Values] = {}
    for attribute in sorted({each["attribute"] for each in (*asking.work, *asking.fits)}):
        if attributes.get(attribute):
            continue
        values = _values(attribute, asking)
        if len(values) > 1:
            found[attribute] = values
    return found


def _values(attribute: str, asking: QuoteConditions) -> Values:
    work, fits, parts = (_sets(attribute, each) for each in (asking.work, asking.fits, asking.parts))
    named = frozenset[str]().union(*work, *fits, *parts)
    if not work:
        return tuple(sorted(named)) if len(set(fits)) > 1 else ()
    alike = len({*work, *fits}) == 1 and named == work[0]
    if not alike:
        return tuple(sorted(named))
    more = named.union(asking.values.get(attribute, ()))
    if more == named:
        more = named.union(YES_OR_NO[value] for value in named if value in YES_OR_NO)
    return tuple(sorted(more)) if more != named else (*sorted(named), None)


def _sets(attribute: str, conditions: Sequence[Condition]) -> list[frozenset[str]]:
    return [frozenset(each["in"]) for each in conditions if each["attribute"] == attribute]


def count(values: Mapping[str, Values]) -> int:
    """How many combinations the values have; 1 where nothing is open."""
    return reduce(mul, (len(each) for each in values.values()), 1)


def combinations(values: Mapping[str, Values]) -> tuple[Combination, ...]:
    """Every combination, the last attribute changing first; one without a value where nothing is open."""
    return tuple(tuple(zip(values, each, strict=True)) for each in product(*values.values()))


def deciding_values(values: Mapping[str, Values], outcome: Callable[[Combination], Hashable]) -> dict[str, Values]:
    """Those of the attributes that change the outcome in some combination of the others.

    `outcome` is asked with an attribute left out too: one whose values all come to the same still tells where that
    is not what comes of leaving it out.
    """
    left = dict(values)
    for attribute in values:
        others = {name: each for name, each in left.items() if name != attribute}
        if all(_alike(stated, attribute, left, outcome) for stated in combinations(others)):
            del left[attribute]
    return left


def _alike(
    stated: Combination, attribute: str, values: Mapping[str, Values], outcome: Callable[[Combination], Hashable]
) -> bool:
    with_each = {outcome(_with(stated, attribute, value, values)) for value in values[attribute]}
    return len(with_each) == 1 and with_each == {outcome(stated)}


def _with(stated: Combination, attribute: str, value: str | None, values: Mapping[str, Values]) -> Combination:
    known = {**dict(stated), attribute: value}
    return tuple((name, known[name]) for name in values if name in known)


def applied(stated: Combination, attributes: Attributes) -> dict[str, str]:
    """The vehicle's attributes with the stated values."""
    return {**attributes, **{name: value for name, value in stated if value is not None}}


def nameable(stated: Combination) -> bool:
    """Whether every value has a name, so that it can be recorded."""
    return all(value is not None for _, value in stated)


def extremes(
    values: Mapping[str, Values], amount: Callable[[Combination], Decimal], fits: Callable[[Combination], bool]
) -> tuple[Combination, ...]:
    """The combinations of the lowest and the highest amount, found by coordinate descent: one value changes at a time.

    They are the lowest and the highest of all where each value adds the same whatever the others are. Work that two
    values share makes them estimates, which is what a range on the phone is. What does not fit comes last in both.
    """
    low = _descended(values, lambda stated: (fits(stated), -amount(stated)))
    high = _descended(values, lambda stated: (fits(stated), amount(stated)))
    return (low,) if low == high else (low, high)


def _descended(values: Mapping[str, Values], rank: Callable[[Combination], tuple[bool, Decimal]]) -> Combination:
    found: Combination = tuple((attribute, each[0]) for attribute, each in values.items())
    while True:
        before = rank(found)
        for attribute in values:
            found = max((found, *(_with(found, attribute, value, values) for value in values[attribute])), key=rank)
        if rank(found) == before:
            return found
