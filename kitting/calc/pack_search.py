"""The search behind the calculation of packs: the two cheapest ways to cover a need, found best first.

A combination from which no pack can be taken away is one way of taking packs from the largest to the
smallest and stopping as soon as the need is met: the last pack taken is the smallest, and without it
something is missing. So each such combination is one path. Everything is whole numbers of the finest common
unit, and cost, left over, packs taken and ids are the digits of one number, so that a sum orders like the rule
of ties.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction
from heapq import heappop, heappush
from math import gcd, lcm
from typing import NamedTuple


class _Choice(NamedTuple):
    """A pack in whole numbers; `weight` orders as cost, then packs taken, then ids.

    Of this pack and the smaller ones: `best` and `second` best (price, size) by the unit, `cheapest` price, and
    the id that sorts first.
    """

    size: int
    price: int
    weight: int
    best: tuple[int, int]
    second: tuple[int, int] | None
    cheapest: int
    first_id: int


class _Scale(NamedTuple):
    """Where the figures stand inside one whole number that orders like the rule of ties."""

    cost: int
    left: int
    taken: int


REACH_LIMIT = 100_000
"""Beyond this many of the finest common unit the sums cost more than they save."""

Path = tuple[int, "Path | None"]
"""The place of the pack taken last, and the path before it; None before the first."""


def two_best(net: Decimal, sizes: Sequence[Decimal], prices: Sequence[Decimal], ids: Sequence[str]) -> list[Path]:
    """The best path and the next best that cover `net` > 0; sizes > 0 in falling order, prices >= 0."""
    problem = _whole_numbers(net, sizes, prices, ids)
    queue: list[tuple[int, int, int, int, int, Path | None]] = [(0, 0, 0, problem.goal, 0, None)]
    visits: dict[tuple[int, int], int] = {}
    found: list[Path] = []
    worst = _Worst()
    while queue and len(found) < 2:
        _, _, taken, rest, last, path = heappop(queue)
        if rest <= 0 and path is not None:
            found.append(path)
            continue
        if (seen := visits.get((last, rest), 0)) == 2:
            continue
        visits[last, rest] = seen + 1
        for at in range(last, len(problem.choices)):
            bound, weight, after = problem.take(at, taken, rest)
            if after <= 0:
                worst.offer(bound)
            if worst.bound is None or bound <= worst.bound:
                # Of equal bounds the deepest first: it is the nearest to an answer.
                heappush(queue, (bound, -len(visits), weight, after, at, (at, path)))
    return found


class _Worst:
    """The second best complete set met so far: nothing dearer is worth following."""

    def __init__(self) -> None:
        self._best: int | None = None
        self.bound: int | None = None

    def offer(self, bound: int) -> None:
        if self._best is None or bound < self._best:
            self._best, self.bound = bound, self._best
        elif self.bound is None or bound < self.bound:
            self.bound = bound


@dataclass(frozen=True, slots=True)
class _Problem:
    """The search in whole numbers; `reach` says which sums each pack and the smaller ones can make."""

    goal: int
    choices: tuple[_Choice, ...]
    scale: _Scale
    reach: tuple[int, ...]

    def take(self, at: int, taken: int, rest: int) -> tuple[int, int, int]:
        """Take one pack more: a bound for every set that begins so, the weight taken, what is missing."""
        choice = self.choices[at]
        weight, after = taken + choice.weight, rest - choice.size
        if after <= 0:
            weight -= after * self.scale.left
            return weight, weight, after
        return weight + self._least(at, after), weight, after

    def _least(self, at: int, rest: int) -> int:
        """A bound below every way to cover `rest` with this pack and smaller ones."""
        choice, left = self.choices[at], 0
        if self.reach:
            sums = self.reach[at] >> rest
            left = (sums & -sums).bit_length() - 1
        total = rest + left
        cost = max(_least_cost(total, choice), choice.cheapest)
        count = -(-total // choice.size)
        return cost * self.scale.cost + left * self.scale.left + count * (self.scale.taken - choice.first_id)


def _least_cost(total: int, choice: _Choice) -> int:
    """A bound: whole packs of the best price a unit, and the rest by parts of packs of the next best."""
    price, size = choice.best
    whole, rest = divmod(total, size)
    if rest == 0:
        return whole * price
    if choice.second is None:
        return (whole + 1) * price
    next_price, next_size = choice.second
    return whole * price + min(price, -(-rest * next_price // next_size))


def _whole_numbers(net: Decimal, sizes: Sequence[Decimal], prices: Sequence[Decimal], ids: Sequence[str]) -> _Problem:
    goal, *lengths = _scaled([net, *sizes])
    step = gcd(*lengths)
    goal, lengths, costs = -(-goal // step), [length // step for length in lengths], _scaled(prices)
    digit = (goal // min(lengths) + 2).bit_length()
    scale = _scale(len(ids) * digit, digit, max(lengths))
    ranks = {name: len(ids) - at for at, name in enumerate(sorted(set(ids)), start=1)}
    firsts = [1 << (ranks[name] * digit) for name in ids]
    reach = _reach(goal + max(lengths), lengths) if _worth_reach(goal, lengths, costs) else ()
    return _Problem(goal, tuple(_choices(lengths, costs, firsts, scale)), scale, reach)


def _worth_reach(goal: int, sizes: list[int], prices: list[int]) -> bool:
    """Prices in proportion to sizes leave only the left over to search by: then the sums pay for themselves."""
    return goal <= REACH_LIMIT and all(
        price * sizes[0] == prices[0] * size for size, price in zip(sizes, prices, strict=True)
    )


def _reach(top: int, sizes: list[int]) -> tuple[int, ...]:
    """For each pack the sums up to `top` that it and the smaller ones make, as the bits of a number."""
    sums, mask, reach = 1, (1 << (top + 1)) - 1, []
    for size in reversed(sizes):
        step = size
        while step <= top:
            sums |= (sums << step) & mask
            step *= 2
        reach.append(sums)
    return tuple(reversed(reach))


def _scale(ids: int, digit: int, largest: int) -> _Scale:
    left = ids + digit + 1
    return _Scale(1 << (left + largest.bit_length()), 1 << left, 1 << ids)


def _choices(sizes: list[int], prices: list[int], firsts: list[int], scale: _Scale) -> Iterator[_Choice]:
    for at, (size, price, first) in enumerate(zip(sizes, prices, firsts, strict=True)):
        offers = sorted(zip(prices[at:], sizes[at:], strict=True), key=lambda offer: Fraction(*offer))
        second = offers[1] if len(offers) > 1 else None
        weight = price * scale.cost + scale.taken - first
        cheapest = min(prices[at:])
        yield _Choice(size, price, weight, offers[0], second, cheapest, max(firsts[at:]))


def _scaled(values: Sequence[Decimal]) -> list[int]:
    """The values as whole numbers of their finest common unit."""
    ratios = [value.as_integer_ratio() for value in values]
    unit = lcm(*(denominator for _, denominator in ratios))
    return [numerator * (unit // denominator) for numerator, denominator in ratios]
