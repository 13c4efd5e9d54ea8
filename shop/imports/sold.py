"""Names of what the shop sells and of the circuits it drains, to which a rule may be tied.

Each app registers its own sources with `names_sold` and `names_drained`.
"""

from collections.abc import Callable, Iterable

from shop.access import Actor
from shop.models import Operation
from shop.tables.registry import kinds

Names = Callable[[Actor], Iterable[str]]
_sources: list[Names] = []
_drained: list[Names] = []


def names_sold(names: Names) -> Names:
    """Registers a source of names that a caution may be tied to."""
    _sources.append(names)
    return names


def sold_names(actor: Actor) -> set[str]:
    """All names that a caution may be tied to."""
    kinds()  # loads the modules that register names
    return {name for names in _sources for name in names(actor)}


def names_drained(names: Names) -> Names:
    """Registers a source of circuits that a fee may be tied to."""
    _drained.append(names)
    return names


def drained_names(actor: Actor) -> set[str]:
    """All circuits that a fee may be tied to."""
    kinds()
    return {name for names in _drained for name in names(actor)}


@names_sold
def operation_names(actor: Actor) -> Iterable[str]:
    """Codes and skills of the shop's operations."""
    for code, skill in Operation.objects.filter(shop=actor.shop).values_list("code", "skill"):
        yield from (code, skill)
