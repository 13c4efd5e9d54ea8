"""The families of consumables, which fees name. Consumables are rows of a higher app, which registers its names."""

from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence
from typing import Any

from shop.access import Actor
from shop.calc.rules import FEE_BASES
from shop.tables.registry import kinds

Names = Callable[[Actor], Iterable[str]]
_sources: list[Names] = []


def names_families(names: Names) -> Names:
    """Registers a source of families."""
    _sources.append(names)
    return names


def families(actor: Actor) -> list[str]:
    """All families of the shop's consumables, sorted."""
    kinds()  # loads the modules that register names
    return sorted({name for names in _sources for name in names(actor)})


def uncharged_fees(
    fees: Sequence[Mapping[str, Any]], before: Sequence[Mapping[str, Any]], stored: Sequence[str]
) -> Iterator[tuple[int, str]]:
    """(place, family) of each fee, new or changed, on a family that no consumable has: it would never be charged.

    A shop without consumables has nothing to compare with.
    """
    for at, fee in enumerate(fees):
        family = fee.get("per", "quote")
        if stored and fee not in before and family not in FEE_BASES.values() and family not in stored:
            yield at, family
