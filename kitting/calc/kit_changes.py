"""The differences of two versions of a kit."""

from collections import Counter
from collections.abc import Hashable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Literal

Group = Literal["line", "need", "reused", "outside"]
ChangeCode = Literal["added", "removed", "moved", "quantity", "operation", "ships"]


@dataclass(frozen=True, slots=True)
class KitItem:
    """An item of a version: a line of its contents, a further need, a re-used part or outside work.

    `key` says which items are the same in two versions. `place` is the carton and the bag of a line, else empty.
    """

    group: Group
    key: Hashable
    name: str
    quantity: Decimal
    unit: str = "pc"
    place: tuple[str, ...] = ()
    operation: str = ""
    ships: str = ""


@dataclass(frozen=True, slots=True)
class KitChange:
    """A difference between versions: `item` is the newer version's, or the older one's if the item was removed.

    `before` and `after` are values of the field that the code names, and places where it moved; else both are None.
    """

    code: ChangeCode
    item: KitItem
    before: object = None
    after: object = None


def kit_changes(before: Sequence[KitItem], after: Sequence[KitItem]) -> Iterator[KitChange]:
    """Items that went, in the order of the older version; then those that came or changed, in that of the newer.

    An item that stands in one place in each version has moved if the places differ.
    """
    old, new = _by_place(before), _by_place(after)
    single = _placed_once(before) & _placed_once(after)
    moved = {_same(item): item for place, item in old.items() if place not in new and _same(item) in single}
    for place, item in old.items():
        if place not in new and _same(item) not in moved:
            yield KitChange("removed", item)
    for place, item in new.items():
        was = old.get(place) or moved.get(_same(item))
        if was is None:
            yield KitChange("added", item)
            continue
        if was.place != item.place:
            yield KitChange("moved", item, was.place, item.place)
        yield from _differences(was, item)


def _differences(old: KitItem, new: KitItem) -> Iterator[KitChange]:
    if old.quantity != new.quantity:
        yield KitChange("quantity", new, old.quantity, new.quantity)
    if old.operation != new.operation:
        yield KitChange("operation", new, old.operation, new.operation)
    if old.ships != new.ships:
        yield KitChange("ships", new, old.ships, new.ships)


def _by_place(items: Iterable[KitItem]) -> dict[Hashable, KitItem]:
    return {(_same(item), item.place): item for item in items}


def _placed_once(items: Iterable[KitItem]) -> set[Hashable]:
    places = Counter(map(_same, items))
    return {item for item, n in places.items() if n == 1}


def _same(item: KitItem) -> Hashable:
    return item.group, item.key
