"""The families of consumables, which fees name. Consumables are rows of a higher app, which registers its names."""

from collections.abc import Callable, Iterable

from shop.access import Actor
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
