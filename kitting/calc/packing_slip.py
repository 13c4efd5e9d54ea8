"""Compares a supplier's packing slip with the goods that a job still waits for.

Units: quantities of a part in its own unit. Parts are named by the key of their number.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from decimal import Decimal, localcontext

from shop.calc.money import EXACT

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class ListedGoods:
    """A line of the job's list that `lacks` a quantity. `box` is the unopened copy of a kit that holds it, else "".

    `kit` is the key of the number under which that kit is bought.
    """

    line: str
    number: str
    lacks: Decimal
    kit: str = ""
    box: str = ""


@dataclass(frozen=True, slots=True)
class SlipMatch:
    """`lines` are on their way with everything that they lack. `short` is {number: quantity that a line still lacks}.

    `unknown` are numbers that no line of the list waits for; `idle` are numbers of which too little was packed for any
    line.
    """

    lines: tuple[str, ...]
    short: dict[str, Decimal]
    unknown: frozenset[str]
    idle: frozenset[str] = frozenset()


def match_slip(packed: Sequence[tuple[str, Decimal]], goods: Sequence[ListedGoods]) -> SlipMatch:
    """Shares what was packed over the lines in their order. A line counts only if all that it lacks was packed.

    A kit that was packed brings every line of as many of its unopened boxes.
    """
    with localcontext(EXACT):
        left: dict[str, Decimal] = defaultdict(Decimal)
        for number, quantity in packed:
            left[number] += quantity
        boxes = _boxes(goods, left)
        lines, short, arriving = [], {}, set()
        for item in goods:
            if item.box in boxes:
                lines.append(item.line)
            elif NOTHING < item.lacks <= left[item.number]:
                left[item.number] -= item.lacks
                lines.append(item.line)
                arriving.add(item.number)
            elif item.lacks > left[item.number] > NOTHING:
                short[item.number] = item.lacks - left.pop(item.number)
    listed = {number for item in goods for number in (item.number, item.kit)}
    unknown = frozenset(number for number, _ in packed if number not in listed)
    return SlipMatch(tuple(lines), short, unknown, frozenset(short) - arriving)


def _boxes(goods: Sequence[ListedGoods], left: dict[str, Decimal]) -> set[str]:
    """The unopened boxes that the packed kits fill, in the order of the list."""
    boxes: dict[str, str] = {item.box: item.kit for item in goods if item.box}
    filled = set()
    for box, kit in boxes.items():
        if left[kit] >= 1:
            left[kit] -= 1
            filled.add(box)
    return filled
