"""Quantities still to buy for a job: whole kits that nobody has opened, and single missing pieces."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from kitting.calc.contents import COUNTED_IN, pieces


@dataclass(frozen=True, slots=True)
class PullLineStock:
    """A line of the pull list: `have` good pieces of `quantity`; `kit` is "" for shelf items.

    `taken` is False for contents of the box that the vehicle does not take. `said_at` is the date that a person
    entered, `spoiled` the pieces that came since then and cannot be used. Lines with the same `part` make up for one
    another.
    """

    line: str
    quantity: Decimal
    unit: str
    have: int
    settled: bool
    kit: str = ""
    copy: int = 1
    taken: bool = True
    said_at: datetime | None = None
    spoiled: int = 0
    part: str = ""
    supplied: bool = False  # of a kit that the customer brings: nothing of it is bought

    def awaited(self, now: datetime) -> bool:
        """True if its entered date is not over and nothing came since that cannot be used."""
        return self.has_day(now) and not self.spoiled

    def has_day(self, now: datetime) -> bool:
        """True if its entered date is not over."""
        return self.said_at is not None and self.said_at >= now


def whole_kits(lines: Iterable[PullLineStock], now: datetime) -> dict[str, int]:
    """{kit: number of its copies without any counted line, and with a line without a date}, in list order."""
    copies: dict[tuple[str, int], list[PullLineStock]] = {}
    for line in lines:
        if line.kit and not line.supplied:
            copies.setdefault((line.kit, line.copy), []).append(line)
    copies_by_kit: dict[str, int] = {}
    for (kit, _), inside in copies.items():
        relevant = [line for line in inside if line.taken] or inside
        if not any(line.settled for line in inside) and not all(line.awaited(now) for line in relevant):
            copies_by_kit[kit] = copies_by_kit.get(kit, 0) + 1
    return copies_by_kit


def single_lines(lines: Sequence[PullLineStock], now: datetime) -> Iterator[tuple[str, Decimal]]:
    """(line, quantity in its unit) of the lines that were counted and are short, from the shelf or a kit's box.

    Uncounted lines may be here. A line with a date that a person entered is not ordered again until that day is over,
    but for the pieces that came in the meantime and cannot be used.
    """
    spare = _spare(lines)
    for line in lines:
        if line.taken and not line.supplied and not line.awaited(now) and line.settled:
            made_up = min(max(_missing(line), 0), spare[line.part])
            spare[line.part] -= made_up
            lacks = _lacks(line, made_up)
            if line.has_day(now) and line.unit in COUNTED_IN:  # the others still come
                lacks = min(lacks, Decimal(line.spoiled))
            if lacks > 0:
                yield line.line, lacks


def _spare(lines: Iterable[PullLineStock]) -> dict[str, int]:
    """Maps each part to the surplus of its lines."""
    spare: dict[str, int] = defaultdict(int)
    for line in lines:
        if line.taken and line.part and not line.supplied:
            spare[line.part] += max(-_missing(line), 0)
    return spare


def _missing(line: PullLineStock) -> int:
    return pieces(line.quantity, line.unit) - line.have


def _lacks(line: PullLineStock, made_up: int) -> Decimal:
    """The missing quantity in the line's own unit. A line that counts as one piece is bought as listed."""
    missing = _missing(line) - made_up
    if line.unit in COUNTED_IN:
        return Decimal(missing)
    return line.quantity if missing > 0 else Decimal(0)
