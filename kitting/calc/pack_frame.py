"""Branches of the branch-and-bound search for packs, and the frame of each: its relaxed solution.

A frame fills the need with one pack (the best per unit), or with a given number of two packs: the base, exchanged for
the filler as often as needed. Relative to the frame, every other pack and every unit left over has a loss, which is
never negative. The sets of a branch are searched by loss: all up to a limit, then all up to a higher limit, until no
set with a higher loss can be among the two best.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from kitting.calc.pack_shelf import Counts, Shelf


@dataclass(frozen=True, slots=True)
class Branch:
    """The sets that contain `fixed` and cover `goal` with `packs`, exactly `count` of them if it is set.

    `fixed` contains none of `packs`.
    """

    fixed: Counts
    goal: int
    packs: tuple[int, ...]
    count: int | None = None

    def bound(self, shelf: Shelf) -> int:
        """A lower bound of the weight of every set of this branch."""
        least = min(-(-shelf.weights[at] * self.goal // shelf.sizes[at]) for at in self.packs)
        if self.count is not None:
            least = max(least, self.count * min(shelf.weights[at] for at in self.packs))
        return shelf.weight(self.fixed) + least

    def with_pack(self, at: int, count: int, shelf: Shelf) -> "Branch":
        """The sub-branch with `count` of the pack at `at`.

        Its goal is rounded up to a size that the other packs can reach.
        """
        remaining = None if self.count is None else self.count - count
        packs = tuple(other for other in self.packs if other != at)
        unit = gcd(*(shelf.sizes[other] for other in packs)) or 1
        goal = -(-(self.goal - count * shelf.sizes[at]) // unit) * unit
        return Branch(added(self.fixed, at, count), goal, packs, remaining)


def added(counts: Counts, at: int, count: int) -> Counts:
    """The counts with `count` more of the pack at `at`."""
    return (*counts[:at], counts[at] + count, *counts[at + 1 :])


@dataclass(frozen=True, slots=True)
class PackLoss:
    """The effect of one more pack: its loss, its size above the base's, and its size below the filler's."""

    loss: int
    over: int
    under: int


@dataclass(frozen=True, slots=True)
class Frame:
    """The relaxed solution of a branch. Losses are in weights times `step`, the size gained by one exchange.

    `need` is the size to gain, `rate` the loss of a unit left over, `room` the limit of over and under together.
    `slack` is the excess size if all packs are fillers (None: any number of packs). `bound` is the lowest weight times
    `step` of all sets of the branch.
    """

    part: Branch
    base: int | None
    filler: int
    step: int
    rate: int
    need: int
    room: int
    slack: int | None
    bound: int
    terms: dict[int, PackLoss]

    def counts(self, beside: Counts, over: int, under: int, excess: int) -> Counts:
        """The complete set: `beside` with the fillers and bases that go with it."""
        counts = added(beside, self.filler, (self.need + excess - over) // self.step)
        if self.base is None or self.slack is None:
            return counts
        return added(counts, self.base, (self.slack - excess - under) // self.step)


def filled(branch: Branch, shelf: Shelf, filler: int) -> Frame:
    """The frame that fills the need with `filler`, the best pack per unit."""
    size, rate = shelf.sizes[filler], shelf.weights[filler]
    others = [at for at in branch.packs if at != filler]
    terms = {at: PackLoss(shelf.weights[at] * size - rate * shelf.sizes[at], shelf.sizes[at], 0) for at in others}
    bound = shelf.weight(branch.fixed) * size + rate * branch.goal
    return Frame(branch, None, filler, size, rate, branch.goal, branch.goal, None, bound, terms)


def exchanged(branch: Branch, shelf: Shelf, count: int) -> Frame:
    """The frame with exactly `count` packs. Some pack, and the lightest one, must be too small for that number."""
    base, filler = _edge(branch, shelf, count)
    low, step = shelf.sizes[base], shelf.sizes[filler] - shelf.sizes[base]
    rate, need = shelf.weights[filler] - shelf.weights[base], branch.goal - count * low

    def term(at: int) -> PackLoss:
        over = shelf.sizes[at] - low
        return PackLoss((shelf.weights[at] - shelf.weights[base]) * step - rate * over, over, step - over)

    terms = {at: term(at) for at in branch.packs if at not in (base, filler)}
    bound = (shelf.weight(branch.fixed) + count * shelf.weights[base]) * step + rate * need
    slack = count * shelf.sizes[filler] - branch.goal
    return Frame(branch, base, filler, step, rate, need, count * step, slack, bound, terms)


def _edge(branch: Branch, shelf: Shelf, count: int) -> tuple[int, int]:
    """(base, filler): the two packs of the lightest mix of `count` packs that just covers the goal."""
    mixes = []
    for base in branch.packs:
        for filler in branch.packs:
            if shelf.sizes[base] * count < branch.goal <= shelf.sizes[filler] * count:
                slope = Fraction(shelf.weights[filler] - shelf.weights[base], shelf.sizes[filler] - shelf.sizes[base])
                weight = shelf.weights[base] * count + slope * (branch.goal - shelf.sizes[base] * count)
                mixes.append((weight, -slope, base, filler))
    _, _, base, filler = min(mixes)
    return base, filler
