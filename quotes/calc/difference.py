"""The changes between two revisions of a quote, line by line, for a customer who answered the older one."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

TOTAL = ""  # no line has this title


@dataclass(frozen=True, slots=True)
class PriceChange:
    """`before` or `after` is None for a line that only one of the revisions has. Prices are texts."""

    title: str
    before: str | None
    after: str | None


def difference(old: Mapping[str, Any], new: Mapping[str, Any]) -> tuple[PriceChange, ...]:
    """Lines of two `shown` documents whose price differs, the total last."""
    before, after = _prices(old), _prices(new)
    titles = [*(title for title in before | after if title), TOTAL]
    changes = [PriceChange(title, before.get(title), after.get(title)) for title in titles]
    return tuple(change for change in changes if change.before != change.after)


def _prices(document: Mapping[str, Any]) -> dict[str, str]:
    """Title -> price; a title that comes twice is told apart by its number."""
    prices: dict[str, str] = {}
    groups = (
        document["kits"],
        document["labour"]["operations"],
        document["needs"],
        document["outside"],
        document["extras"],
        document["fees"],
        [document["discount"]] if document["discount"] else [],
    )
    for line in (line for group in groups for line in group):
        name, copies = line.get("name", line["title"]), 1
        title = name
        while title in prices:
            copies += 1
            title = f"{name} ({copies})"
        prices[title] = line["price"]
    return {**prices, TOTAL: document["totals"]["gross"]}
