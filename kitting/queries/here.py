"""The goods that have come for a pull list, usable or not, by the number under which they are bought."""

from collections.abc import Mapping
from decimal import Decimal

from kitting.calc.contents import COUNTED_IN
from kitting.models import PullLine, PullList
from kitting.queries.readiness import Counts, counts_of, kits_of, line_on_hand, standing_lines
from shop.models import Shop

Here = Mapping[str, Mapping[str, Decimal]]
"""{order number: {line, or copy of a kit: quantity}}"""


def goods_here(shop: Shop, pull_list: PullList) -> Here:
    """The counted lines with their quantities, and every copy of a kit: 1 once one of its lines is counted, else 0."""
    lines = standing_lines(shop, pull_list)
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


def _quantity(line: PullLine, counts: Counts) -> Decimal:
    """In the unit of the line; a line that counts as one piece has the length that it lists."""
    count = line_on_hand(line, counts) + counts.unusable(line.pk)
    return Decimal(count) if line.unit in COUNTED_IN else line.quantity * count
