"""The items that a job needs, the missing ones among them, and their arrival dates.

Pieces are whole numbers. `now` and due dates carry their zone.
"""

from collections import defaultdict
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass, replace
from datetime import UTC, date, datetime, timedelta
from typing import Literal

from kitting.calc.counting import Tally
from kitting.calc.line_state import NOTHING_NOTED, Flags
from shop.calc.days import on_the_shelf
from shop.calc.worktime import WorkCalendar

GroupKind = Literal["line", "kit", "carton", "shelf", "bag"]

NO_DAY = datetime.max.replace(tzinfo=UTC)

Box = tuple[str, int, str]
"""(kit, number of its copy, carton; "" for a kit without cartons and for parts outside them)"""


def on_hand(expected: int, tally: Tally | None, flags: Flags = NOTHING_NOTED, wrong: int = 0) -> int:
    """The good pieces of a line according to the counts; never below zero.

    A line to be counted again has its lower number. `wrong` pieces noted since the count are subtracted. A bag that was
    accepted sealed has the expected number.
    """
    if tally is None:
        return expected if flags.sealed else 0
    return max(tally.low - tally.damaged - wrong, 0)


@dataclass(frozen=True, slots=True)
class NeededItem:
    """One line of the pull list that the work needs: `have` of `need` pieces.

    `counted`: somebody has counted the line. `said_at` is the date that a person entered; `lead_days` are the days from
    acceptance if it is bought (for a kit's line, those of the kit); `ordered_on` is the first day on which it can be
    ordered, if a change added it to the job later. Lines with the same `part` are pooled.
    """

    line: str
    title: str
    operation: str
    need: int
    have: int
    counted: bool = False
    kit: str = ""  # "" for items from the shelf
    copy: int = 1
    carton: str = ""
    minor: bool = False
    said_at: datetime | None = None
    lead_days: int | None = None
    ordered_on: date | None = None  # None: the job's day of acceptance
    bag: str = ""
    supplier: str = ""  # of the item, or of its kit
    part: str = ""  # "": cannot be replaced by another line
    sold_as: str = ""  # the quote's title of a need whose packs are separate lines
    supplied: bool = False  # of a kit that the customer brings, on the day of the vehicle

    @property
    def box(self) -> Box:
        return self.kit, self.copy, self.carton

    @property
    def pool(self) -> str:
        return self.part or self.line


@dataclass(frozen=True, slots=True)
class Times:
    """`opened_on` is the day of acceptance. Without opening hours no delivery date can be worked out."""

    now: datetime
    opened_on: date
    calendar: WorkCalendar | None


@dataclass(frozen=True, slots=True)
class Missing:
    """`pieces` of a line that are missing and that no other line of its part can spare.

    `stops` are the operations that lack them, as (code, pieces) in the order of the work; empty if there is none.
    """

    item: NeededItem
    pieces: int
    due: datetime | None
    overdue: bool
    uncounted: bool = False  # it may be here: its carton has come or it is on the shelf, but nobody has counted it
    stops: tuple[tuple[str, int], ...] = ()

    @property
    def step(self) -> str:
        """The first operation that it stops; "" if there is none."""
        return self.stops[0][0] if self.stops else ""

    @property
    def uncounted_without_day(self) -> bool:
        """True if an uncounted shelf item has no delivery date should it be missing, as on the quote."""
        return self.uncounted and not self.item.kit and self.item.lead_days is None and bool(self.stops)

    @property
    def in_time(self) -> datetime | None:
        """The due date, unless it has passed."""
        return None if self.overdue else self.due


@dataclass(frozen=True, slots=True)
class MissingGroup:
    """Missing lines that share one sentence: one line, or the uncounted lines of a kit, carton, bag or the shelf."""

    kind: GroupKind
    lines: tuple[Missing, ...]

    @property
    def first(self) -> Missing:
        return self.lines[0]

    @property
    def key(self) -> str:
        """The id of its first line: no line belongs to two groups."""
        return self.lines[0].item.line


def missing_items(items: Sequence[NeededItem], times: Times, opened: Iterable[Box] = ()) -> tuple[Missing, ...]:
    """The items with fewer pieces than needed, in list order. `pooling.with_stops` adds the steps that they stop.

    `opened`: boxes that are known to have come because a line without an item was counted in them.
    """
    arrived = opened_boxes(items, opened)
    short = [_missing(item, times, arrived) for item in items if item.have < item.need]
    return _made_up(short, items)


def opened_boxes(items: Iterable[NeededItem], opened: Iterable[Box] = ()) -> set[Box]:
    """The cartons that have come: at least one of their lines is counted."""
    return {item.box for item in items if item.counted and item.kit} | set(opened)


def is_uncounted(item: NeededItem, arrived: set[Box]) -> bool:
    """True if the item has to be counted before anyone waits for it or orders it.

    A shelf line with a date that a person entered is awaited.
    """
    if item.counted:
        return False
    return item.box in arrived if item.kit else item.said_at is None


def needed_at(item: NeededItem, codes: Iterable[str]) -> str:
    """The operation that first needs the item; the first operation if the item names none of this job.

    `codes` are in sheet order. Pass a mapping where there are many.
    """
    return item.operation if item.operation in codes else next(iter(codes), "")


def due_at(item: NeededItem, times: Times, uncounted: bool = False) -> datetime | None:
    """The date on which the item is available: as a person entered it, else its day of acceptance plus the lead days.

    Once a kit has been opened, parts missing from it have no date until a person enters one. Items that only have to be
    counted have no date.
    """
    if uncounted:
        return None
    if item.said_at is not None:
        return item.said_at
    came_without = bool(item.kit) and item.counted
    if item.lead_days is None or times.calendar is None or came_without:
        return None
    return on_the_shelf((item.ordered_on or times.opened_on) + timedelta(days=item.lead_days), times.calendar)


def grouped(
    missing: Sequence[Missing], items: Iterable[NeededItem], codes: Sequence[str], opened: Iterable[Box] = ()
) -> tuple[MissingGroup, ...]:
    """Groups the lines that come together or are counted together.

    Groups to count come first, then those that stop the earliest step; minor items come last.
    """
    begun = {(kit, copy) for kit, copy, _ in opened_boxes(items, opened)}
    lines_by_key: dict[tuple[object, ...], list[Missing]] = defaultdict(list)
    for line in missing:
        lines_by_key[_key(line, begun)].append(line)
    places = {code: place for place, code in enumerate(codes)}
    groups = [_group(key, lines, places) for key, lines in lines_by_key.items()]
    return tuple(sorted(groups, key=lambda group: (_to_count(group.first), _place(group.first, places))))


def _to_count(missing: Missing) -> int:
    """0: in a carton that has come; 1: on the shelf; 2: nothing to count."""
    return (0 if missing.item.kit else 1) if missing.uncounted else 2


def _missing(item: NeededItem, times: Times, arrived: set[Box]) -> Missing:
    uncounted = is_uncounted(item, arrived)
    due = due_at(item, times, uncounted)
    overdue = due is not None and due < times.now
    return Missing(item, item.need - item.have, due, overdue, uncounted)


def soonest(missing: Missing) -> tuple[int, datetime]:
    """The sort key: lines with a date, then lines that only have to be counted, then lines without a date."""
    if missing.in_time is not None:
        return 0, missing.in_time
    return (1 if missing.uncounted else 2), NO_DAY


def _made_up(short: Sequence[Missing], items: Iterable[NeededItem]) -> tuple[Missing, ...]:
    """The short lines, reduced by the surplus of other lines of the same part.

    The latest arrivals are reduced first.
    """
    spare: dict[str, int] = defaultdict(int)
    for item in items:
        spare[item.pool] += max(item.have - item.need, 0)
    lacks: dict[str, int] = {}
    for line in sorted(short, key=soonest, reverse=True):
        made_up = min(line.pieces, spare[line.item.pool])
        spare[line.item.pool] -= made_up
        lacks[line.item.line] = line.pieces - made_up
    return tuple(replace(line, pieces=lacks[line.item.line]) for line in short if lacks[line.item.line])


def _key(missing: Missing, begun: set[tuple[str, int]]) -> tuple[object, ...]:
    item = missing.item
    if item.counted:
        return ("line", item.line)
    if not item.kit:
        return ("shelf", missing.due, item.said_at)
    if missing.uncounted:
        return ("bag", *item.box, item.bag)
    if (item.kit, item.copy) in begun:
        return ("carton", missing.due, item.said_at, item.kit, item.copy, item.carton, in_bags(item))
    return ("kit", missing.due, item.said_at, item.kit, item.copy)


def in_bags(item: NeededItem) -> bool:
    """True for an item in a bag that is in no carton."""
    return bool(item.bag) and not item.carton


def _group(key: tuple[object, ...], lines: list[Missing], codes: Mapping[str, int]) -> MissingGroup:
    kind: GroupKind = "line" if len(lines) == 1 else key[0]  # type: ignore[assignment]
    return MissingGroup(kind, tuple(sorted(lines, key=lambda line: _place(line, codes))))


def _place(missing: Missing, codes: Mapping[str, int]) -> int:
    return codes.get(missing.step, len(codes))
