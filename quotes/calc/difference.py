"""The changed lines between two revisions of a quote, for a customer who answered the older one."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

TOTAL = ""  # no line has this title


@dataclass(frozen=True, slots=True)
class PriceChange:
    """A changed price. `before` or `after` is None for a line that only one revision has. Prices are texts."""

    title: str
    before: str | None
    after: str | None


def difference(old: Mapping[str, Any], new: Mapping[str, Any]) -> tuple[PriceChange, ...]:
    """The lines of two `shown` documents that differ in price, and the total last."""
    before, after = _prices(old), _prices(new)
    titles = [*(title for title in before | after if title), TOTAL]
    changes = [PriceChange(title, before.get(title), after.get(title)) for title in titles]
    return tuple(change for change in changes if change.before != change.after)


def _prices(document: Mapping[str, Any]) -> dict[str, str]:
    """Maps titles to prices. A repeated title gets a number."""
    prices: dict[str, str] = {}
    groups = (
        document["kits"],
        document["labour"]["operations"],
        document["needs"],
        document["outside"],
        document["extras"],
        document["fees"],
        document.get("taken", ()),
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
