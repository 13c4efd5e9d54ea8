"""The search behind the calculation of packs: the two best sets that cover a need.

It is a branch-and-bound search, best bound first, with a meet-in-the-middle step inside each frame (`pack_frame`). A
branch is split by the number of one pack, or by the number of all packs, or searched through a frame. The search ends
when no branch can beat the two best sets, so the result is exact.
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
"""Up to this number of the best pack, the frame is a poor bound: branch on each number of it."""

NARROW = Fraction(4, 3)
"""If sizes or prices are this close (largest by smallest), branch on the number of packs."""

CLOSE = Fraction(21, 20)
"""If all packs but one are this close in size, branch on each number of that one."""


def two_best(net: Decimal, sizes: Sequence[Decimal], prices: Sequence[Decimal], ids: Sequence[str]) -> list[Counts]:
    """The best and the second best set that cover `net` > 0. Sizes > 0 in falling order, prices >= 0."""
    shelf = Shelf.of(net, sizes, prices, ids)
    best, queue = TwoBest(shelf), _Queue()
    whole = Branch((0,) * len(sizes), shelf.goal, tuple(range(len(sizes))))
    queue.push(whole.bound(shelf), whole)
    while queue and best.beats(queue.bound):
        current = queue.pop()
        for branch in (
            _goes_on(current, shelf, best) if isinstance(current, Search) else _expanded(current, shelf, best)
        ):
            queue.push(branch.bound if isinstance(branch, Search) else branch.bound(shelf), branch)
    return best.sets


class _Queue:
    """A priority queue of branches by bound; of equal bounds the oldest comes first."""

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
    """The search with the next limit.

    Once it is long, branches on the pack that is finer than all others, if there is one.
    """
    branch, finest = search.frame.part, None
    if search.long and branch.count is None:
        finest = _finest(branch, search.frame.filler, shelf)
    if finest is not None:
        yield from _branches(branch, finest, _times(branch, finest, shelf), shelf, best)
    elif search.goes_on(best):
        yield search


def _finest(branch: Branch, filler: int, shelf: Shelf) -> int | None:
    """The only pack whose size is not a multiple of the others' common unit, if the goal is not a multiple either."""
    for pack in branch.packs:
        if pack != filler and branch.goal % gcd(*(shelf.sizes[at] for at in branch.packs if at != pack)):
            return pack
    return None


def _expanded(branch: Branch, shelf: Shelf, best: TwoBest) -> Iterator[Branch | Search]:
    if branch.count is not None:
        return _of_a_number(branch, branch.count, shelf, best)
    by_unit = min(branch.packs, key=lambda at: Fraction(shelf.weights[at], shelf.sizes[at]))
    if len(branch.packs) == 1 or _times(branch, by_unit, shelf) <= FEW:
        return _branches(branch, by_unit, _times(branch, by_unit, shelf), shelf, best)
    odd = _odd_one(branch.packs, shelf)
    if odd is not None:
        return _branches(branch, odd, _times(branch, odd, shelf), shelf, best)
    if _spread(branch.packs, shelf.sizes) <= NARROW or _spread(branch.packs, shelf.weights) <= NARROW:
        finest = _finest(branch, by_unit, shelf)
        if finest is not None:
            return _branches(branch, finest, _times(branch, finest, shelf), shelf, best)
        return _numbers(branch, shelf)
    return iter([Search(filled(branch, shelf, by_unit))])


def _spread(packs: tuple[int, ...], figures: tuple[int, ...]) -> Fraction:
    chosen = [figures[at] for at in packs]
    return Fraction(max(chosen), min(chosen))


def _odd_one(packs: tuple[int, ...], shelf: Shelf) -> int | None:
    """The largest or the smallest pack, if only that one keeps the packs from being close in size."""
    for odd, others in ((packs[0], packs[1:]), (packs[-1], packs[:-1])):
        near, far = _spread(others, shelf.sizes), _spread(packs, shelf.sizes)
        if len(others) > 2 and near <= CLOSE and far - 1 > 8 * (near - 1):
            return odd
    return None


def _times(branch: Branch, at: int, shelf: Shelf) -> int:
    """The number of one pack that fills the need."""
    return -(-branch.goal // shelf.sizes[at])


def _numbers(branch: Branch, shelf: Shelf) -> Iterator[Branch]:
    least, most = _times(branch, branch.packs[0], shelf), _times(branch, branch.packs[-1], shelf)
    return (replace(branch, count=count) for count in range(least, most + 1))


def _of_a_number(branch: Branch, count: int, shelf: Shelf, best: TwoBest) -> Iterator[Branch | Search]:
    if shelf.sizes[branch.packs[0]] * count < branch.goal:
        return iter(())
    lightest = min(branch.packs, key=lambda at: shelf.weights[at])
    if shelf.sizes[lightest] * count >= branch.goal:
        return _branches(branch, lightest, count, shelf, best)
    return iter([Search(exchanged(branch, shelf, count))])


def _branches(branch: Branch, at: int, most: int, shelf: Shelf, best: TwoBest) -> Iterator[Branch]:
    """Offers the set of `most` of one pack alone, and yields a branch for each smaller number of it."""
    best.offer(added(branch.fixed, at, most))
    branches = (branch.with_pack(at, count, shelf) for count in range(most))
    return (smaller for smaller in branches if smaller.packs and smaller.goal > 0)
