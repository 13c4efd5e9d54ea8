"""A line that the customer brings: it has no price, and can be sold by the workshop again."""

from collections.abc import Mapping
from decimal import Decimal
from typing import Any

from kitting.models import Part
from quotes.models import Line
from shop.errors import field_error


def of_supplied(line: Line, changes: Mapping[str, Any]) -> dict[str, Any]:
    """The changes with the resulting price: none for what the customer brings, else the part's own or worked out."""
    changes = dict(changes)
    supplied = changes.get("supplied", line.supplied)
    if supplied and changes.get("unit_price") is None:
        changes |= {"unit_price": Decimal(0), "override_reason": "", "returnable": True}
    elif line.kind != Line.Kind.TEXT and line.supplied and not supplied:
        changes = {"unit_price": None, "returnable": _article(line).returnable} | changes
    check_supplied(supplied, changes.get("unit_price", line.unit_price))
    return changes


def _article(line: Line) -> Part:
    """The part as which the line is bought."""
    part: Part | None = line.kit_revision.kit.part if line.kit_revision else line.part
    assert part is not None
    return part


def check_supplied(supplied: bool, price: Decimal | None) -> None:
    """Refuses a price for what the customer brings: only the work that fits it is charged."""
    if supplied and price:
        raise field_error("/unit_price", "supplied_free")
