"""The containers to open or buy for a need: the calculation of packs (fixtures/vectors/packs.json).

Units: sizes, need and stock are in one unit of the specification (litres, metres, pieces); prices in money of one
currency. Sizes may be of any scale: nothing is rounded before the result.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from kitting.calc.pack_search import two_best
from kitting.calc.pack_shelf import Counts
from shop.calc.errors import CalculationError
from shop.calc.money import EXACT, rounded


@dataclass(frozen=True, slots=True)
class Pack:
    """A container on offer: `size` > 0 in the unit of the need, `price` >= 0 each."""

    id: str
    size: Decimal
    price: Decimal


@dataclass(frozen=True, slots=True)
class PackSet:
    """A set of packs as (id, count) pairs from the largest pack down. `cost` is rounded, `left` exact."""

    packs: tuple[tuple[str, int], ...]
    cost: Decimal
    left: Decimal


@dataclass(frozen=True, slots=True)
class PackChoice(PackSet):
    """The best set, and the second best (None if there is no other)."""

    runner_up: PackSet | None


def choose_packs(need: Decimal, on_hand: Decimal, packs: Sequence[Pack], exponent: int) -> PackChoice:
    """The cheapest whole packs that cover `need` less `on_hand`, and the runner-up.

    Ties by exact values: least left over, fewest packs, then the ids in order. Refuses `bad_pack` (size not above 0 or
    price below 0) before anything else, `no_packs` if something is needed and nothing is offered.
    """
    for pack in packs:
        _check(pack)
    with localcontext(EXACT):
        return _choose(need, on_hand, packs, exponent)


def _choose(need: Decimal, on_hand: Decimal, packs: Sequence[Pack], exponent: int) -> PackChoice:
    if need <= on_hand:
        return PackChoice((), rounded(Decimal(0), exponent), on_hand - need, None)
    if not packs:
        raise CalculationError("no_packs", str(need))
    ordered = sorted(packs, key=lambda pack: (-pack.size, pack.id))
    net = need - on_hand
    sizes, prices = [pack.size for pack in ordered], [pack.price for pack in ordered]
    best_counts = two_best(net, sizes, prices, [pack.id for pack in ordered])
    best, *others = [_pack_set(counts, ordered, net, exponent) for counts in best_counts]
    return PackChoice(best.packs, best.cost, best.left, others[0] if others else None)


def _check(pack: Pack) -> None:
    if not (pack.size.is_finite() and pack.price.is_finite() and pack.size > 0 and pack.price >= 0):
        raise CalculationError("bad_pack", pack.id)


def _pack_set(counts: Counts, packs: Sequence[Pack], net: Decimal, exponent: int) -> PackSet:
    chosen = [(pack, count) for pack, count in zip(packs, counts, strict=True) if count]
    cost = sum((pack.price * count for pack, count in chosen), Decimal(0))
    size = sum((pack.size * count for pack, count in chosen), Decimal(0))
    return PackSet(tuple((pack.id, count) for pack, count in chosen), rounded(cost, exponent), size - net)
