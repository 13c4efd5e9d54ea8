"""Words each line of a pasted list of parts: its meaning, its fault, and the remedy."""

from datetime import datetime
from uuid import UUID

from quotes.answers.part_list import ListedPartOut, PartListOut
from quotes.calc.part_list import ListedPart
from quotes.presenters.part_prices import part_prices
from quotes.queries.part_list import PartList
from shop.calc.keys import search_key
from shop.calc.quantity import plain
from shop.models import Shop
from shop.words import say


def part_list_answer(part_list: PartList, shop: Shop, now: datetime) -> PartListOut:
    """Every line of the list with today's price of its part."""
    prices = part_prices(shop, list(part_list.parts.values()), now)
    understood, wrong = len(part_list.understood), len(part_list.problems)
    return PartListOut(
        words=say("part_list.read_wrong", wrong=wrong) if wrong else say("part_list.read", n=understood),
        understood=understood,
        wrong=wrong,
        rows=[_row(line, part_list, prices) for line in part_list.lines],
    )


def wrong_rows(part_list: PartList) -> str:
    """The numbers of the lines that have to be put right: '3, 7'."""
    return ", ".join(str(line.row) for line in part_list.problems)


def _row(line: ListedPart, part_list: PartList, prices: dict[UUID, str]) -> ListedPartOut:
    part = part_list.parts[line.part] if line.part else None
    return ListedPartOut(
        row=line.row,
        text=line.text,
        reading=line.reading,
        number=part.number if part else line.number,
        title=part.title if part else "",
        part=line.part,
        quantity=plain(line.quantity),
        price=prices.get(part.pk) if part else None,
        words=line_words(line, part.number if part else "", priced=bool(part and part.pk in prices)),
    )


def line_words(line: ListedPart, number: str, *, priced: bool = True) -> str:
    """The fault of a line and its remedy, or the meaning read; empty for a plain line. `number` is that of its part."""
    if line.reading == "unknown":
        return say("part_list.unknown", number=line.number)
    if line.reading == "no_quantity":
        return say("part_list.no_quantity")
    if line.reading == "left_out":
        return say("part_list.left_out")
    if number and search_key(line.number) != search_key(number) and not line.number.isdigit():
        return say("part_list.replaced", before=line.number)
    return "" if priced else say("part_list.no_price")
