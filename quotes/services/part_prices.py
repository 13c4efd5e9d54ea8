"""A part's own price and the reason for it, which go together."""

from collections.abc import Mapping
from typing import Any

from quotes.models import Line
from shop.errors import field_error


def clean_reason(line: Line, changes: Mapping[str, Any]) -> None:
    """Cleans a changed line. Refuses a reason for a part's own price that has nothing but invisible characters."""
    line.clean_fields_as(override_reason="because")
    own = line.kind == Line.Kind.PART and not line.supplied and changes.get("unit_price") is not None
    if own and not line.override_reason:
        raise field_error("/because", "kept.blank")


def with_reason(line: Line, changes: Mapping[str, Any]) -> dict[str, Any]:
    """The columns to change: a part's price with the reason for it, which goes with the price."""
    columns = {name: value for name, value in changes.items() if name != "because"}
    if "unit_price" not in changes:
        return columns
    price = changes["unit_price"]
    if line.kind != Line.Kind.PART:
        if price is None:
            raise field_error("/unit_price", "missing")
        return columns
    if price is not None and not changes.get("because"):
        raise field_error("/because", "own_price_reason")
    return columns | {"override_reason": changes["because"] if price is not None else ""}
