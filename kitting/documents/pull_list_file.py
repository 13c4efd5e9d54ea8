"""A pull list with its counts as the lines of a spreadsheet."""

from collections.abc import Iterator, Sequence
from decimal import Decimal

from kitting.documents.pull_list import LinePrinter, list_counts, placed_lines
from kitting.models import PullList
from kitting.presenters.pull_lists import list_answer
from shop.access import Actor
from shop.tables.writing import Content
from shop.words import say

COLUMNS = (
    *("line", "kit", "copy", "carton", "bag", "number", "title", "quantity", "unit", "step"),
    *("counted", "damaged", "difference", "counters"),
)


def pull_list_headings() -> list[str]:
    return [say(f"list.column.{name}") for name in COLUMNS]


def pull_list_lines(actor: Actor, pull_list: PullList) -> Iterator[Sequence[Content]]:
    """A row for each line of the list, in its order. `counted` is empty where nobody has counted."""
    answer = list_answer(actor, pull_list)
    counts = list_counts(actor, pull_list, answer)
    printer = LinePrinter(actor, pull_list, counts)
    for item in placed_lines(actor, pull_list, answer):
        row, line, tally = printer.row(item), item.line, counts.tallies.get(str(item.line.id))
        yield (
            *(line.position, line.kit, item.copy if line.kit else None, line.carton, line.bag, line.number, line.title),
            *(Decimal(line.quantity), line.unit, row.step),
            None if tally is None else tally.total if tally.low == tally.total else row.total,
            None if tally is None else tally.damaged,
            row.difference,
            "; ".join(row.counters),
        )
