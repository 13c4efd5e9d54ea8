"""The packs on offer in whole numbers, and the two best sets so far (the search for packs).

All numbers are whole numbers of the finest common unit. Cost, size left over, number of packs and ids are the digits
of one number, the weight, so that sums of weights sort by the tie-breaking rule.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal
from math import gcd, lcm

Counts = tuple[int, ...]
"""The number of each pack, the largest pack first."""


@dataclass(frozen=True, slots=True)
class Shelf:
    """Packs by falling `sizes`. `weights` include the size, because the rest left over is size less the `goal`."""

    goal: int
    sizes: tuple[int, ...]
    weights: tuple[int, ...]

    @classmethod
    def of(cls, net: Decimal, sizes: Sequence[Decimal], prices: Sequence[Decimal], ids: Sequence[str]) -> "Shelf":
        goal, *lengths = _scaled([net, *sizes])
        unit = gcd(*lengths)
        goal, lengths = -(-goal // unit), [length // unit for length in lengths]
        digit = (goal // min(lengths) + 2).bit_length()
        ranks = {name: rank for rank, name in enumerate(sorted(set(ids), reverse=True), start=1)}
        pack_digit = 1 << (digit * (len(ranks) + 2))
        left_digit = pack_digit << digit
        cost_digit = left_digit << (goal + max(lengths)).bit_length()
        weights = (
            price * cost_digit + length * left_digit + pack_digit - (1 << (digit * ranks[name]))
            for price, length, name in zip(_scaled(prices), lengths, ids, strict=True)
        )
        return cls(goal, tuple(lengths), tuple(weights))

    def weight(self, counts: Counts) -> int:
        return sum(weight * count for weight, count in zip(self.weights, counts, strict=True))

    def size(self, counts: Counts) -> int:
        return sum(size * count for size, count in zip(self.sizes, counts, strict=True))


class TwoBest:
    """The best and the second best complete set so far. `second` is the weight that other sets must stay below."""

    def __init__(self, shelf: Shelf) -> None:
        self._shelf = shelf
        self._best: list[tuple[int, Counts]] = []
        self.second: int | None = None

    @property
    def sets(self) -> list[Counts]:
        return [counts for _, counts in self._best]

    def beats(self, weight: int) -> bool:
        return self.second is None or weight < self.second

    def offer(self, counts: Counts) -> None:
        """Keeps a set that covers the goal and from which no pack can be removed, if it is good enough."""
        excess = self._shelf.size(counts) - self._shelf.goal
        candidate = (self._shelf.weight(counts), counts)
        smallest = min(size for size, count in zip(self._shelf.sizes, counts, strict=True) if count)
        if 0 <= excess < smallest and candidate not in self._best:
            self._best = sorted([*self._best, candidate])[:2]
            self.second = self._best[1][0] if len(self._best) == 2 else None


def _scaled(values: Sequence[Decimal]) -> list[int]:
    """The values as whole numbers of their finest common unit."""
    ratios = [value.as_integer_ratio() for value in values]
    unit = lcm(*(denominator for _, denominator in ratios))
    return [numerator * (unit // denominator) for numerator, denominator in ratios]
