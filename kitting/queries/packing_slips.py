"""Reads the goods that a job waits for, to compare a packing slip with them."""

from dataclasses import dataclass
from decimal import Decimal
from uuid import UUID

from kitting.calc.contents import COUNTED_IN, pieces
from kitting.calc.packing_slip import ListedGoods
from kitting.models import Kit, PullLine, PullList
from kitting.queries.readiness import Counts, counts_of, kits_of, line_on_hand, standing_lines
from shop.access import Actor
from shop.calc.keys import search_key


@dataclass(frozen=True, slots=True)
class WaitingList:
    """The list of a job with its goods. `units` are {key of a number: unit of its lines}."""

    pull_list: UUID
    job: str
    goods: tuple[ListedGoods, ...]
    units: dict[str, str]


def waiting_list(actor: Actor, job: int) -> WaitingList | None:
    """The open list of the job of this number; None without one.

    Kits that the customer brings are not among the goods.
    """
    rows = PullList.objects.filter(shop=actor.shop, job__number=job, state=PullList.State.OPEN)
    pull_list = rows.select_related("job").order_by("-opened_at", "-id").first()
    if pull_list is None:
        return None
    lines = [line for line in standing_lines(actor.shop, pull_list) if line.part and not line.supplied]
    counts, kits = counts_of(actor.shop, pull_list, lines), kits_of(actor.shop, lines)
    opened = {(line.kit, line.copy_number) for line in lines if line.kit and counts.settled(line.pk)}
    goods = tuple(_goods(line, counts, kits, opened) for line in lines)
    units = {item.number: line.unit for item, line in zip(goods, lines, strict=True)}
    return WaitingList(pull_list.pk, str(pull_list.job), goods, units)


def _goods(line: PullLine, counts: Counts, kits: dict[str, Kit], opened: set[tuple[str, int]]) -> ListedGoods:
    kit = kits.get(line.kit)
    whole = kit is not None and (line.kit, line.copy_number) not in opened
    assert line.part is not None
    return ListedGoods(
        line=str(line.pk),
        number=search_key(line.part.number),
        lacks=_lacks(line, counts),
        kit=search_key(kit.part.number) if kit else "",
        box=f"{line.kit} {line.copy_number}" if whole else "",
    )


def _lacks(line: PullLine, counts: Counts) -> Decimal:
    """The quantity in the line's unit that is not here. A line that counts as one piece lacks all or nothing."""
    missing = max(pieces(line.quantity, line.unit) - line_on_hand(line, counts), 0)
    if line.unit in COUNTED_IN:
        return Decimal(missing)
    return line.quantity if missing else Decimal(0)
