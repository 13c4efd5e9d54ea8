"""Which containers to open or buy for a need (the calculation of packs).

Sizes, need and stock are in one unit of the specification (litres, metres, pieces); prices in money of one
currency. The search is exact for sizes of any scale.

A combination from which no pack can be taken away is one way of taking packs from the largest to the
smallest and stopping as soon as the need is met: the last pack taken is the smallest, and without it
something is missing. So each such combination is one path, and the cheapest paths are found best first.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext
from fractions import Fraction
from heapq import heappop, heappush
from math import gcd, lcm
from typing import NamedTuple

from shop.calc.money import EXACT, rounded
from shop.calc.refusal import Refusal


@dataclass(frozen=True, slots=True)
class Pack:
    """A container on offer: `size` > 0 in the unit of the need, `price` >= 0 each."""

    id: str
    size: Decimal
    price: Decimal


@dataclass(frozen=True, slots=True)
class PackSet:
    """`packs`: (id, count) pairs from the largest pack down; `cost` rounded; `left` exact."""

    packs: tuple[tuple[str, int], ...]
    cost: Decimal
    left: Decimal


@dataclass(frozen=True, slots=True)
class PackChoice(PackSet):
    """The best set, and the set that would be next (None if there is no other)."""

    runner_up: PackSet | None


class _Choice(NamedTuple):
    """A pack in whole numbers. `weight` orders as cost, then packs taken, then ids."""

    size: int
    price: int
    weight: int
    best_price: int
    best_size: int
    cheapest: int
    first_id: int


class _Scale(NamedTuple):
    """Where the figures stand inside one whole number that orders like the rule of ties."""

    cost: int
    left: int
    taken: int


REACH_LIMIT = 100_000
"""Beyond this many of the finest common unit the sums cost more than they save."""

_Path = tuple[int, "_Path | None"]


def choose_packs(need: Decimal, on_hand: Decimal, packs: Sequence[Pack], exponent: int) -> PackChoice:
    """The cheapest whole packs that cover `need` less `on_hand`, and the runner-up.

    Ties by exact values: least left over, fewest packs, then the ids in order. Refuses `bad_pack` (size not
    above 0 or price below 0) before anything else, `no_packs` when something is needed and nothing offered.
    """
    for pack in packs:
        _check(pack)
    with localcontext(EXACT):
        return _choose(need, on_hand, packs, exponent)


def _choose(need: Decimal, on_hand: Decimal, packs: Sequence[Pack], exponent: int) -> PackChoice:
    if need <= on_hand:
        return PackChoice((), rounded(Decimal(0), exponent), on_hand - need, None)
    if not packs:
        raise Refusal("no_packs", str(need))
    ordered = sorted(packs, key=lambda pack: (-pack.size, pack.id))
    paths = _two_best(need - on_hand, ordered)
    sets = [_pack_set(path, ordered, need - on_hand, exponent) for path in paths]
    best = sets[0]
    return PackChoice(best.packs, best.cost, best.left, sets[1] if len(sets) > 1 else None)


def _check(pack: Pack) -> None:
    if not (pack.size.is_finite() and pack.price.is_finite() and pack.size > 0 and pack.price >= 0):
        raise Refusal("bad_pack", pack.id)


def _pack_set(path: "_Path", packs: Sequence[Pack], net: Decimal, exponent: int) -> PackSet:
    counts = [0] * len(packs)
    step: _Path | None = path
    while step is not None:
        counts[step[0]] += 1
        step = step[1]
    taken = [(pack, count) for pack, count in zip(packs, counts, strict=True) if count]
    cost = sum((pack.price * count for pack, count in taken), Decimal(0))
    size = sum((pack.size * count for pack, count in taken), Decimal(0))
    return PackSet(tuple((pack.id, count) for pack, count in taken), rounded(cost, exponent), size - net)


def _two_best(net: Decimal, packs: Sequence[Pack]) -> list[_Path]:
    """The best path and the next best, as linked steps from the last pack taken to the first."""
    problem = _whole_numbers(net, packs)
    queue: list[tuple[int, int, int, int, int, _Path | None]] = [(0, 0, 0, problem.goal, 0, None)]
    visits: dict[tuple[int, int], int] = {}
    found: list[_Path] = []
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
        cost = max(-(-total * choice.best_price // choice.best_size), choice.cheapest)
        count = -(-total // choice.size)
        return cost * self.scale.cost + left * self.scale.left + count * (self.scale.taken - choice.first_id)


def _whole_numbers(net: Decimal, packs: Sequence[Pack]) -> _Problem:
    goal, *sizes = _scaled([net, *(pack.size for pack in packs)])
    step = gcd(*sizes)
    goal, sizes = -(-goal // step), [size // step for size in sizes]
    prices = _scaled([pack.price for pack in packs])
    digit = (goal // min(sizes) + 2).bit_length()
    scale = _scale(len(packs) * digit, digit, max(sizes))
    ranks = {name: len(packs) - at for at, name in enumerate(sorted({pack.id for pack in packs}), start=1)}
    firsts = [1 << (ranks[pack.id] * digit) for pack in packs]
    reach = _reach(goal + max(sizes), sizes) if _worth_reach(goal, sizes, prices) else ()
    return _Problem(goal, tuple(_choices(sizes, prices, firsts, scale)), scale, reach)


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
        best = min(range(at, len(sizes)), key=lambda i: Fraction(prices[i], sizes[i]))
        weight = price * scale.cost + scale.taken - first
        cheapest = min(prices[at:])
        yield _Choice(size, price, weight, prices[best], sizes[best], cheapest, max(firsts[at:]))


def _scaled(values: list[Decimal]) -> list[int]:
    """The values as whole numbers of their finest common unit."""
    ratios = [value.as_integer_ratio() for value in values]
    unit = lcm(*(denominator for _, denominator in ratios))
    return [numerator * (unit // denominator) for numerator, denominator in ratios]
