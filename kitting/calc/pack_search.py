"""The search behind the calculation of packs: the two best sets that cover a need, by parts, the most hopeful first.

Each part is a bound and a way to go on: branch on the number of one pack, branch on the number of all packs, or look
through a frame (`pack_frame`). Sets that no part can still beat end the search, so that the answer is exact.
"""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal
from fractions import Fraction
from heapq import heappop, heappush
from math import gcd

from kitting.calc.pack_frame import Branch, added, exchanged, filled
from kitting.calc.pack_labels import Search
from kitting.calc.pack_shelf import Counts, Shelf, TwoBest

FEW = 2
"""So few of the best pack fill a need badly: each number of them is a part of its own."""

NARROW = Fraction(4, 3)
"""Of packs so close in size or in price (dearest by cheapest) each number of packs is a part of its own."""

CLOSE = Fraction(21, 20)
"""Where all packs but one are as close as this, and that one is not, each number of it is a part of its own."""


def two_best(net: Decimal, sizes: Sequence[Decimal], prices: Sequence[Decimal], ids: Sequence[str]) -> list[Counts]:
    """The best set and the next best that cover `net` > 0; sizes > 0 in falling order, prices >= 0."""
    shelf = Shelf.of(net, sizes, prices, ids)
    best, queue = TwoBest(shelf), _Queue()
    whole = Branch((0,) * len(sizes), shelf.goal, tuple(range(len(sizes))))
    queue.push(whole.bound(shelf), whole)
    while queue and best.beats(queue.bound):
        one = queue.pop()
        for part in _goes_on(one, shelf, best) if isinstance(one, Search) else _parts(one, shelf, best):
            queue.push(part.bound if isinstance(part, Search) else part.bound(shelf), part)
    return best.sets


class _Queue:
    """Parts by their bounds; of equal bounds the oldest first."""

    def __init__(self) -> None:
        self._heap: list[tuple[int, int, Branch | Search]] = []
        self._pushed = 0

    def __bool__(self) -> bool:
        return bool(self._heap)

    @property
    def bound(self) -> int:
        return self._heap[0][0]

    def push(self, bound: int, part: Branch | Search) -> None:
        self._pushed += 1
        heappush(self._heap, (bound, self._pushed, part))

    def pop(self) -> Branch | Search:
        return heappop(self._heap)[2]


def _goes_on(search: Search, shelf: Shelf, best: TwoBest) -> Iterator[Branch | Search]:
    """The search a limit further; once it is long, parts by the one pack without which nothing fits to the unit."""
    part, finest = search.frame.part, None
    if search.long and part.count is None:
        finest = _finest(part, search.frame.filler, shelf)
    if finest is not None:
        yield from _branches(part, finest, _times(part, finest, shelf), shelf, best)
    elif search.goes_on(best):
        yield search


def _finest(part: Branch, filler: int, shelf: Shelf) -> int | None:
    """The pack whose size alone is no multiple of a unit that all others have in common, where the goal is none."""
    for one in part.packs:
        if one != filler and part.goal % gcd(*(shelf.sizes[at] for at in part.packs if at != one)):
            return one
    return None


def _parts(part: Branch, shelf: Shelf, best: TwoBest) -> Iterator[Branch | Search]:
    if part.count is not None:
        return _of_a_number(part, part.count, shelf, best)
    by_unit = min(part.packs, key=lambda at: Fraction(shelf.weights[at], shelf.sizes[at]))
    if len(part.packs) == 1 or _times(part, by_unit, shelf) <= FEW:
        return _branches(part, by_unit, _times(part, by_unit, shelf), shelf, best)
    odd = _odd_one(part.packs, shelf)
    if odd is not None:
        return _branches(part, odd, _times(part, odd, shelf), shelf, best)
    if _spread(part.packs, shelf.sizes) <= NARROW or _spread(part.packs, shelf.weights) <= NARROW:
        finest = _finest(part, by_unit, shelf)
        if finest is not None:
            return _branches(part, finest, _times(part, finest, shelf), shelf, best)
        return _numbers(part, shelf)
    return iter([Search(filled(part, shelf, by_unit))])


def _spread(packs: tuple[int, ...], figures: tuple[int, ...]) -> Fraction:
    chosen = [figures[at] for at in packs]
    return Fraction(max(chosen), min(chosen))


def _odd_one(packs: tuple[int, ...], shelf: Shelf) -> int | None:
    """The largest or the smallest pack, if only it keeps the others from being close."""
    for odd, others in ((packs[0], packs[1:]), (packs[-1], packs[:-1])):
        near, far = _spread(others, shelf.sizes), _spread(packs, shelf.sizes)
        if len(others) > 2 and near <= CLOSE and far - 1 > 8 * (near - 1):
            return odd
    return None


def _times(part: Branch, at: int, shelf: Shelf) -> int:
    """How many of one pack fill the need."""
    return -(-part.goal // shelf.sizes[at])


def _numbers(part: Branch, shelf: Shelf) -> Iterator[Branch]:
    least, most = _times(part, part.packs[0], shelf), _times(part, part.packs[-1], shelf)
    return (replace(part, count=count) for count in range(least, most + 1))


def _of_a_number(part: Branch, count: int, shelf: Shelf, best: TwoBest) -> Iterator[Branch | Search]:
    if shelf.sizes[part.packs[0]] * count < part.goal:
        return iter(())
    lightest = min(part.packs, key=lambda at: shelf.weights[at])
    if shelf.sizes[lightest] * count >= part.goal:
        return _branches(part, lightest, count, shelf, best)
    return iter([Search(exchanged(part, shelf, count))])


def _branches(part: Branch, at: int, most: int, shelf: Shelf, best: TwoBest) -> Iterator[Branch]:
    """The set that takes nothing but `most` of one pack, and a part for each smaller number of it."""
    best.offer(added(part.fixed, at, most))
    parts = (part.with_pack(at, count, shelf) for count in range(most))
    return (each for each in parts if each.packs and each.goal > 0)
