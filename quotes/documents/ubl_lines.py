"""The lines of a frozen text by the ids that its totals name: title, quantity and descriptions of each."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.forms import FrozenContent
from quotes.presenters import sections
from shop.words import say

ONE = Decimal(1)


@dataclass(frozen=True, slots=True)
class QuotedItem:
    """A line without its price. `steps` are the operations of labour with their hours; `unit` is "" for a count."""

    title: str
    quantity: Decimal = ONE
    unit: str = ""
    descriptions: Sequence[str] = ()
    number: str = ""
    steps: Sequence[tuple[str, Decimal]] = ()


def quoted_items(document: FrozenContent) -> dict[str, QuotedItem]:
    """{id of a line of the totals: its item}, the shop supplies under "supplies"."""
    return dict(_items(document["shown"], document["inputs"]["lines"]))


def _items(content: FrozenContent, lines: Sequence[FrozenContent]) -> Iterator[tuple[str, QuotedItem]]:
    for kit in content["kits"]:
        yield f"kit:{kit['line']}", QuotedItem(kit["title"], number=kit["code"])
    for line in lines:
        if line["id"].startswith("labour:"):
            yield line["id"], _labour(line, content["labour"]["operations"])
    for need in content["needs"]:
        yield f"need:{need['key'].removeprefix('need:')}", _need(need)
    for extra in content["extras"]:
        yield f"extra:{extra['line']}", QuotedItem(extra["title"], Decimal(extra["quantity"]))
    for work in content["outside"]:
        yield f"outside:{work['line']}", QuotedItem(work["name"])
    for fee in content["fees"]:
        yield fee["key"], QuotedItem(fee["title"])
    for taken in content.get("taken", ()):
        yield f"taken:{taken['source']}:{taken['item']}", QuotedItem(taken["title"])


def _labour(line: FrozenContent, operations: Sequence[FrozenContent]) -> QuotedItem:
    """The hours of one skill, with its operations."""
    skill = line["id"].removeprefix("labour:")
    steps = [
        (operation["title"], Decimal(operation["hours"]))
        for operation in operations
        if operation["skill"] == skill and sections.is_charged(operation)
    ]
    return QuotedItem(say("quotation.file.labour", skill=skill), Decimal(line["quantity"]), "h", steps=steps)


def _need(need: FrozenContent) -> QuotedItem:
    """The quantity that is used where that is charged, else the contents of the packs that are sold."""
    packs = [Decimal(pack["size"]) * pack["count"] for pack in need["packs"]]
    quantity = sum(packs, Decimal(0)) if need["charge"] == "pack" else Decimal(need["quantity"])
    covered = [say("customer.covered")] if sections.is_covered(need) else []
    if not quantity:
        return QuotedItem(need["title"], descriptions=covered)
    return QuotedItem(need["title"], quantity, need["unit"], [*sections.need_why(need), *covered])
