"""The differences of two versions of a kit in words."""

from collections.abc import Iterator
from decimal import Decimal

from kitting import access
from kitting.answers.kits import KitVersionOut
from kitting.calc.kit_changes import KitChange, kit_changes
from kitting.models import Kit, KitRevision
from kitting.presenters.boxes import amount, place_inside
from kitting.queries.kit_versions import items_of
from shop.calc.quantity import at_least, plain
from shop.words import say
from shop.words.figures import figure


def version_answer(kit: Kit, newer: KitRevision, *, priced: bool) -> KitVersionOut:
    """A version with its differences from the one before it, in price too if `priced`. The first has none."""
    older = access.kit_revision(kit, newer.number - 1)
    if older is None:
        return KitVersionOut(number=newer.number, changes=[])
    items = items_of(kit, (older, newer))
    changes = [*_figures(older, newer, kit.shop.exponent, priced=priced)]
    changes += map(_words, kit_changes(items[older.pk], items[newer.pk]))
    return KitVersionOut(number=newer.number, changes=changes)


def _figures(older: KitRevision, newer: KitRevision, exponent: int, *, priced: bool) -> Iterator[str]:
    both = (older, newer)
    pairs = {
        "price": [_price(row, exponent) for row in both] if priced else ["", ""],
        "hours": [figure(plain(row.hours)) if row.hours is not None else "" for row in both],
        "lead_days": ["" if row.lead_days is None else str(row.lead_days) for row in both],
        "labour": [_labour(row) for row in both],
    }
    for name, (before, after) in pairs.items():
        if before != after:
            nothing = say("kit.change.nothing")
            yield say(f"kit.change.{name}", before=before or nothing, after=after or nothing)
    if priced and older.cost != newer.cost:
        yield say("kit.change.cost")


def _price(revision: KitRevision, exponent: int) -> str:
    return "" if revision.price is None else figure(at_least(revision.price, exponent))


def _labour(revision: KitRevision) -> str:
    template = revision.labour
    return say("kit.change.template", code=template.code, number=template.number) if template else ""


def _words(change: KitChange) -> str:
    item = change.item
    quantity = amount(item.quantity, item.unit)
    if change.code in ("added", "removed"):
        place = place_inside(*item.place) if item.place else ""
        key = f"{change.code}_line" if place else change.code
        return say(f"kit.change.{key}", name=item.name, n=quantity, place=place)
    before, after = (_side(change, value) for value in (change.before, change.after))
    return say(f"kit.change.{change.code}", name=item.name, before=before, after=after)


def _side(change: KitChange, value: object) -> str:
    if isinstance(value, Decimal):
        return amount(value, change.item.unit)
    if isinstance(value, tuple):
        return place_inside(*value)
    return say(f"kit.ships.{value}") if change.code == "ships" else str(value) or say("kit.change.nothing")
