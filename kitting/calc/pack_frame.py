"""One part of the search for packs: a frame that nearly says everything, and the few packs beside it.

A frame fills the need with one pack (the best by the unit), or with a given number of packs of two kinds (the base,
exchanged for the filler as often as it takes). Against such a frame every other pack has a loss, which is never
negative, and so has every unit left over. The sets of a part are looked through by loss: all up to a limit, then
all up to a higher one, until no set with a higher loss can be among the two best.
"""

from dataclasses import dataclass
from fractions import Fraction
from math import gcd

from kitting.calc.pack_shelf import Counts, Shelf


@dataclass(frozen=True, slots=True)
class Branch:
    """Sets that hold `fixed` and cover `goal` by `packs` (of which `fixed` has none), `count` of them if given."""

    fixed: Counts
    goal: int
    packs: tuple[int, ...]
    count: int | None = None

    def bound(self, shelf: Shelf) -> int:
        """No set of this part weighs less."""
        least = min(-(-shelf.weights[at] * self.goal // shelf.sizes[at]) for at in self.packs)
        if self.count is not None:
            least = max(least, self.count * min(shelf.weights[at] for at in self.packs))
        return shelf.weight(self.fixed) + least

    def with_pack(self, at: int, count: int, shelf: Shelf) -> "Branch":
        """The part of it that takes `count` of the pack at `at`; its goal is one that the other packs can come to."""
        remaining = None if self.count is None else self.count - count
        packs = tuple(other for other in self.packs if other != at)
        unit = gcd(*(shelf.sizes[other] for other in packs)) or 1
        goal = -(-(self.goal - count * shelf.sizes[at]) // unit) * unit
        return Branch(added(self.fixed, at, count), goal, packs, remaining)


def added(counts: Counts, at: int, count: int) -> Counts:
    return (*counts[:at], counts[at] + count, *counts[at + 1 :])


@dataclass(frozen=True, slots=True)
class PackLoss:
    """One pack more: its loss, its size above that of the base, and below that of the filler."""

    loss: int
    over: int
    under: int


@dataclass(frozen=True, slots=True)
class Frame:
    """Losses are in weights times `step`, the size that one exchange of base for filler wins.

    `need` is the size to be won, `rate` the loss of a unit left over, `room` what over and under may come to,
    `slack` the size that is too much if all packs are fillers (None: any number of packs), `bound` the least
    weight times step of all sets of the part.
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
        """The whole set with the fillers and bases that go with what was `taken` beside them."""
        counts = added(beside, self.filler, (self.need + excess - over) // self.step)
        if self.base is None or self.slack is None:
            return counts
        return added(counts, self.base, (self.slack - excess - under) // self.step)


def filled(branch: Branch, shelf: Shelf, filler: int) -> Frame:
    """The need filled by `filler`, the best of the packs by the unit."""
    size, rate = shelf.sizes[filler], shelf.weights[filler]
    others = [at for at in branch.packs if at != filler]
    terms = {at: PackLoss(shelf.weights[at] * size - rate * shelf.sizes[at], shelf.sizes[at], 0) for at in others}
    bound = shelf.weight(branch.fixed) * size + rate * branch.goal
    return Frame(branch, None, filler, size, rate, branch.goal, branch.goal, None, bound, terms)


def exchanged(branch: Branch, shelf: Shelf, count: int) -> Frame:
    """The need met by `count` packs; some kind is too small for that, and the lightest kind is."""
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
    """The two packs between which the lightest mix of `count` packs lies that just covers the goal."""
    mixes = []
    for base in branch.packs:
        for filler in branch.packs:
            if shelf.sizes[base] * count < branch.goal <= shelf.sizes[filler] * count:
                slope = Fraction(shelf.weights[filler] - shelf.weights[base], shelf.sizes[filler] - shelf.sizes[base])
                weight = shelf.weights[base] * count + slope * (branch.goal - shelf.sizes[base] * count)
                mixes.append((weight, -slope, base, filler))
    _, _, base, filler = min(mixes)
    return base, filler
