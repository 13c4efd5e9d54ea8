"""The changed lines between two documents of a quote: two versions, or two prices of one version."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from decimal import Decimal
from typing import Any

from quotes.calc.priced_labour import WORK

MOST_ROWS = 12  # people do not read a longer list of differences
TOTAL = ""  # no line has this title
Packed = list[list[str]]


@dataclass(frozen=True, slots=True)
class PricedLine:
    """A line of a document. `key` is the same in every version of the quote; two lines of one thing share it.

    `quantity` is a text with its unit, or empty. The price is a text.
    """

    key: str
    title: str
    price: str
    quantity: str = ""


@dataclass(frozen=True, slots=True)
class PriceChange:
    """A changed price. `before` or `after` is None for a line that only one document has. Prices are texts.

    The quantities are those of the line before and after, or empty.
    """

    title: str
    before: str | None
    after: str | None
    quantity_before: str = ""
    quantity_after: str = ""


def difference(old: Mapping[str, Any], new: Mapping[str, Any]) -> tuple[PriceChange, ...]:
    """The lines of two `shown` documents that differ in price, and the total last."""
    changes = changed_lines(priced_lines(old), priced_lines(new))
    before, after = old["totals"]["gross"], new["totals"]["gross"]
    return changes if before == after else (*changes, PriceChange(TOTAL, before, after))


def changed_lines(old: Sequence[PricedLine], new: Sequence[PricedLine]) -> tuple[PriceChange, ...]:
    """The lines that differ in price: those of the old document in its order, then those that only the new one has.

    Of several lines of one thing, those of an equal price belong together; the others are compared in their order.
    """
    common = Counter((line.key, line.price) for line in old) & Counter((line.key, line.price) for line in new)
    gone, came = _without(old, common), _without(new, common)
    changes: list[PriceChange] = []
    for line in gone:
        successor = next((other for other in came if other.key == line.key), None)
        if successor is None:
            changes.append(PriceChange(line.title, line.price, None, line.quantity))
        else:
            came.remove(successor)
            changes.append(PriceChange(successor.title, line.price, successor.price, line.quantity, successor.quantity))
    return (*changes, *(PriceChange(line.title, None, line.price, quantity_after=line.quantity) for line in came))


def largest_first(changes: Sequence[PriceChange]) -> tuple[Sequence[PriceChange], Sequence[PriceChange]]:
    """(the changes to show, the rest): all in their order, or of more than `MOST_ROWS` the largest, by size."""
    if len(changes) <= MOST_ROWS:
        return changes, ()
    ordered = sorted(changes, key=_size, reverse=True)
    return ordered[:MOST_ROWS], ordered[MOST_ROWS:]


def _size(change: PriceChange) -> Decimal:
    return abs(Decimal(change.after or 0) - Decimal(change.before or 0))


def _without(lines: Iterable[PricedLine], common: Counter[tuple[str, str]]) -> list[PricedLine]:
    """The lines of one document without those that the other has too, each as often as both have it."""
    left, rest = Counter(common), []
    for line in lines:
        if left[line.key, line.price]:
            left[line.key, line.price] -= 1
        else:
            rest.append(line)
    return rest


def priced_lines(document: Mapping[str, Any]) -> list[PricedLine]:
    """Every line of a `shown` document that has a price, in the order of the page.

    A line that is charged only if it happens counts at its cap.
    """
    return [
        *(PricedLine(f"kit:{_of(kit, 'code', 'title')}", kit["title"], kit["price"]) for kit in document["kits"]),
        *(
            PricedLine(
                _lasting(_of(operation, "key", "title"), operation["title"]),
                operation["title"],
                operation["price"],
                _with_unit(operation, "hours"),
            )
            for operation in document["labour"]["operations"]
        ),
        *(
            PricedLine(_of(need, "key", "title"), need["title"], need["price"], _with_unit(need, "quantity"))
            for need in document["needs"]
        ),
        *(PricedLine(f"outside:{work['name']}", work["name"], work["price"]) for work in document["outside"]),
        *(
            PricedLine(f"extra:{_of(extra, 'part', 'title')}", extra["title"], extra["price"], extra["quantity"])
            for extra in document["extras"]
        ),
        *(PricedLine(_of(fee, "key", "title"), fee["title"], fee["price"]) for fee in document["fees"]),
        *(
            PricedLine(
                f"contingency:{item['event']}",
                f"{item['event']}: {item['title']}",
                item["highest"],
                f"{item['cap']} ×",
            )
            for item in document.get("contingencies", ())
        ),
        *(PricedLine(f"taken:{item['title']}", item["title"], item["price"]) for item in document.get("taken", ())),
        *(
            PricedLine("discount", discount["title"], discount["price"])
            for discount in [document["discount"]]
            if discount
        ),
    ]


def _of(line: Mapping[str, Any], *names: str) -> str:
    """The first of these fields that the line has."""
    return next(str(line[name]) for name in names if line.get(name))


def _lasting(key: str, title: str) -> str:
    """A key that lasts over versions: for work by hours its title, because its key names a line of one version only."""
    return f"labour:{title}" if key.startswith(f"labour:{WORK}") else key


def _with_unit(line: Mapping[str, Any], name: str) -> str:
    unit = "h" if name == "hours" else line.get("unit", "")
    return f"{line[name]} {unit}".strip() if name in line else ""


def packed_lines(lines: Iterable[PricedLine]) -> Packed:
    """The lines as JSON holds them."""
    return [[line.key, line.title, line.price, line.quantity] for line in lines]


def unpacked_lines(content: Iterable[Sequence[str]]) -> list[PricedLine]:
    """The lines that `packed_lines` packed, now or before work by hours had a key that lasts."""
    return [PricedLine(_lasting(key, title), title, *figures) for key, title, *figures in content]
