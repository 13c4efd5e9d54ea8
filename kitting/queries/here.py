"""The goods of a pull list that have come, usable or not, and those still needed, by order number."""

from collections.abc import Iterator, Mapping
from decimal import Decimal

from kitting.calc.contents import COUNTED_IN, pieces
from kitting.models import PullLine, PullList
from kitting.queries.readiness import Counts, box_of, counts_of, kits_of, line_on_hand, standing_lines
from shop.models import Shop

Here = Mapping[str, Mapping[str, Decimal]]
"""{order number: {line, or copy of a kit: quantity}}"""


def goods_here(shop: Shop, pull_list: PullList) -> Here:
    """The counted lines with their quantities, and every copy of a kit: 1 once one of its lines is counted, else 0.

    Includes the lines that a change retired: goods that came for them are still here.
    """
    rows = PullLine.objects.filter(shop=shop, pull_list=pull_list).exclude(kind=PullLine.Kind.REUSED)
    lines = list(rows.select_related("part", "copy").order_by("position"))
    counts, kits = counts_of(shop, pull_list, lines), kits_of(shop, lines)
    here: dict[str, dict[str, Decimal]] = {}
    for line in lines:
        counted = counts.settled(line.pk)
        if counted and line.part:
            here.setdefault(line.part.number, {})[str(line.pk)] = _quantity(line, counts)
        if line.kit in kits:
            copies = here.setdefault(kits[line.kit].part.number, {})
            copy = f"{line.kit} {line.copy_number}"
            copies[copy] = max(copies.get(copy, Decimal(0)), Decimal(counted))
    return here


def still_needed(shop: Shop, pull_list: PullList) -> Iterator[tuple[str, Decimal]]:
    """(order number, quantity) of each standing line that is short, and of each kit of which nothing is counted."""
    lines = standing_lines(shop, pull_list)
    counts, kits = counts_of(shop, pull_list, lines), kits_of(shop, lines)
    opened = {box_of(line)[:2] for line in lines if line.kit and counts.settled(line.pk)}
    for kit, _ in {box_of(line)[:2] for line in lines if line.kit in kits} - opened:
        yield kits[kit].part.number, Decimal(1)
    for line in lines:
        short = pieces(line.quantity, line.unit) - line_on_hand(line, counts)
        if line.part and short > 0:
            yield line.part.number, Decimal(short) if line.unit in COUNTED_IN else line.quantity


def _quantity(line: PullLine, counts: Counts) -> Decimal:
    """In the unit of the line; a line that counts as one piece has the length that it lists."""
    count = line_on_hand(line, counts) + counts.unusable(line.pk)
    return Decimal(count) if line.unit in COUNTED_IN else line.quantity * count
