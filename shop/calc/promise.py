"""When the vehicle can be ready, and what it waits for: the calculation of promise (fixtures/vectors/promise.json).

Units: billed hours, whole minutes of opening hours, waits in minutes of the wall clock; instants carry their zone.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from heapq import heappop, heappush
from math import ceil
from typing import Literal
from zoneinfo import ZoneInfo

from shop.calc.errors import CalculationError
from shop.calc.network import PendingPredecessors, walk
from shop.calc.worktime import DAY, HORIZON, OpeningHours, WorkCalendar, instant_of, minute_of, too_far

Because = Literal["after", "wait", "technician", "not_before", "drop_off"]
_ORDER: tuple[Because, ...] = ("after", "wait", "technician", "not_before", "drop_off")


@dataclass(frozen=True, slots=True)
class PlannedOperation:
    """One operation: billed `hours`, what it comes `after`, minutes of the wall clock to wait once it is done.

    `not_before` is the arrival of an item or a file it cannot do without. `wait_days`: open dates until another firm,
    which takes over as the operation ends, gives the work back at closing time; 0 for none.
    """

    code: str
    hours: Decimal
    after: tuple[str, ...] = ()
    wait_after: int = 0
    not_before: datetime | None = None
    wait_days: int = 0


@dataclass(frozen=True, slots=True)
class Plan:
    """The sheet in order, the shop's hours, and from when the vehicle is there.

    `technicians` work side by side (at least one); `efficiency` is billed hours an hour of the clock.
    """

    calendar: WorkCalendar
    available_from: datetime
    operations: tuple[PlannedOperation, ...]
    technicians: int = 1
    efficiency: Decimal = Decimal(1)


@dataclass(frozen=True, slots=True)
class Booking:
    """When an operation starts and when its last minute is over, in the shop's zone."""

    code: str
    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True)
class ChainLink:
    """The last cause of an operation's start: another operation (`of`), or an arrival or the drop-off (None)."""

    code: str
    because: Because
    of: str | None


@dataclass(frozen=True, slots=True)
class Promise:
    """`finish` may lie in closed hours (a last cure); `schedule` in sheet order; `chain` from the end back."""

    finish: datetime
    schedule: tuple[Booking, ...]
    chain: tuple[ChainLink, ...]


@dataclass(frozen=True, slots=True)
class _Slot:
    """In minutes. `released`: wait and return are over; `previous`: the place of what its technician did before."""

    start: int
    end: int
    released: int
    previous: int | None


def clock_minutes(hours: Decimal, efficiency: Decimal) -> int:
    """Whole minutes of the clock that billed hours take one technician, `efficiency` billed hours an hour."""
    return ceil(Fraction(hours) * 60 / Fraction(efficiency))


def promise(plan: Plan) -> Promise:
    """Always start next the operation with the earliest possible start; ties by the sheet.

    Refuses `bad_efficiency` (not above 0), `never_open` (the zone), `too_far` (years) and, from the network of
    operations, `loop` (its members in order), `unknown_operation`, `duplicate_operation`, `negative_hours` (the code).
    """
    planner = Planner(plan.calendar, plan.operations, plan.technicians, plan.efficiency)
    return planner.schedule(minute_of(plan.available_from), planner.arrivals).promise()


def _longest_absence(operation: PlannedOperation) -> int:
    """The most minutes for which another firm can keep the work while the shop is open."""
    return (operation.wait_days + 1) * DAY if operation.wait_days > 0 else 0


Arrivals = Sequence[int | None]
"""For each operation of the sheet, in order, the minute before which it cannot start."""

_Tail = tuple[frozenset[int], int, tuple[int | None, ...]]
"""The key of a plan's end, which depends on no more: places left at a quiet minute, that minute, the arrivals."""


class Planner:
    """Plans the operations of one sheet from any minute on; everything that does not depend on it is done once."""

    def __init__(
        self, calendar: WorkCalendar, sheet: Sequence[PlannedOperation], technicians: int, efficiency: Decimal
    ) -> None:
        """Refuses as `promise` does."""
        if not efficiency.is_finite() or efficiency <= 0:
            raise CalculationError("bad_efficiency", str(efficiency))
        self.walked = walk(sheet)
        self.hours = OpeningHours(calendar)
        self.sheet = sheet
        self.places = {operation.code: place for place, operation in enumerate(sheet)}
        self.before = [tuple(self.places[code] for code in operation.after) for operation in sheet]
        self.minutes = [clock_minutes(operation.hours, efficiency) for operation in sheet]
        self.people = min(technicians, max(len(sheet), 1))
        self.waiting = PendingPredecessors(sheet)
        self.arrivals: Arrivals = [
            None if operation.not_before is None else minute_of(operation.not_before) for operation in sheet
        ]
        self._longest = (
            1 + sum(self.minutes) + sum(operation.wait_after + _longest_absence(operation) for operation in sheet)
        )
        self._tails: dict[_Tail, int] = {}
        self._after_arrivals: dict[tuple[int | None, ...], int] = {}

    def schedule(self, available_from: int, arrivals: Arrivals) -> "Schedule":
        """The plan from a minute on; `arrivals` stand for the `not_before` of the operations."""
        return Schedule(self, available_from, arrivals)

    def finish(self, available_from: int, arrivals: Arrivals) -> int:
        """The finish of that plan. Plans that go on alike from a quiet minute share what comes after it.

        So do all plans in which everything that waits for no arrival is done before the first one: what comes years
        ahead would else be planned again from every day until then.
        """
        first = min((arrival for arrival in arrivals if arrival is not None), default=available_from)
        if first <= available_from or self.hours.open_minutes(available_from, first) < self._longest:
            return Schedule(self, available_from, arrivals, self._tails).finish
        key = tuple(arrivals)
        if key not in self._after_arrivals:
            self._after_arrivals[key] = Schedule(self, available_from, arrivals, self._tails).finish
        elif self._after_arrivals[key] - available_from > HORIZON:
            raise too_far()
        return self._after_arrivals[key]

    def latest_start(self, available_from: int) -> int:
        """No operation starts later if nothing has to arrive: until then someone works, or a wait is running."""
        return self.hours.after_work(available_from, self._longest)


class Schedule:
    """A sheet in minutes: who is free from when, and the slot of each operation by its place.

    `finish` is the minute in which the last wait is over; without operations the one in which the vehicle comes.
    """

    def __init__(
        self, planner: Planner, available_from: int, arrivals: Arrivals, tails: dict[_Tail, int] | None = None
    ) -> None:
        """With `tails` it stops as soon as its finish is known, and adds what it learns to them."""
        self.available_from = self.finish = available_from
        self._planner, self._hours, self._arrivals = planner, planner.hours, arrivals
        self._free = [available_from] * planner.people
        self._finished: list[int | None] = [None] * planner.people
        self._slots: dict[int, _Slot] = {}
        self._tails, self._quiet = tails, list[_Tail]()
        self._book()
        if tails is not None:
            tails.update(dict.fromkeys(self._quiet, self.finish))

    @property
    def starts(self) -> list[int]:
        """The first minute of each operation, in the order of the sheet."""
        return [self._slots[place].start for place in range(len(self._slots))]

    def promise(self) -> Promise:
        zone, sheet = self._hours.calendar.zone, self._planner.sheet
        if not sheet:
            return Promise(instant_of(self.finish, zone), (), ())
        last = max(self._slots, key=lambda place: (self._slots[place].released, place))
        return Promise(
            finish=instant_of(self.finish, zone),
            schedule=tuple(self._booked(place, zone) for place in range(len(sheet))),
            chain=tuple(self._chain(last)),
        )

    def _booked(self, place: int, zone: ZoneInfo) -> Booking:
        slot = self._slots[place]
        return Booking(self._planner.sheet[place].code, instant_of(slot.start, zone), instant_of(slot.end, zone))

    def _book(self) -> None:
        """Those that may start as soon as a technician is free go by the sheet, all others by their moments.

        Technicians are never free earlier than they were, so that who may start once may start from then on.
        """
        waiting = self._planner.waiting.copy()
        now: list[int] = []
        later = sorted((self._possible(place), place) for place in waiting.ready)
        while now or later:
            free = self._hours.first_open(min(self._free))
            while later and later[0][0] <= free:
                heappush(now, heappop(later)[1])
            if not now and self._reuses_finish(later[0][0]):
                return
            start, place = (free, heappop(now)) if now else heappop(later)
            self._assign(place, start)
            for follower in waiting.without(place):
                heappush(later, (self._possible(follower), follower))

    def _reuses_finish(self, minute: int) -> bool:
        """Whether the rest is known from a `minute` at which all work begun is done and every wait is over."""
        if self._tails is None or self.finish > minute:
            return False
        remaining = frozenset(range(len(self._planner.sheet))).difference(self._slots)
        tail = remaining, minute, tuple(self._arrivals)
        finish = self._tails.get(tail)
        if finish is None:
            self._quiet.append(tail)
            return False
        self.finish = finish
        return True

    def _possible(self, place: int) -> int:
        """The first open minute at which the operation may start, if a technician is free."""
        moment = max(self.available_from, self._arrivals[place] or 0)
        for before in self._planner.before[place]:
            moment = max(moment, self._slots[before].released)
        return self._hours.first_open(moment)

    def _assign(self, place: int, start: int) -> None:
        technician = self._free.index(min(self._free))
        minutes = self._planner.minutes[place]
        end = self._hours.after_work(start, minutes) if minutes else start
        released = self._released(self._planner.sheet[place], end)
        if released - self.available_from > HORIZON:
            raise too_far()
        self._slots[place] = _Slot(start, end, released, self._finished[technician])
        self.finish = max(self.finish, released)
        self._free[technician] = end
        self._finished[technician] = place

    def _released(self, operation: PlannedOperation, end: int) -> int:
        """When successors may start: the later of the end of the wait and the return from another firm."""
        released = end + operation.wait_after
        if operation.wait_days > 0:
            released = max(released, self._hours.closing_after(end, operation.wait_days))
        return released

    def _chain(self, place: int | None) -> Iterator[ChainLink]:
        """From `place` back along the latest cause of each; ties as `_ORDER`, then the first on the sheet."""
        sheet = self._planner.sheet
        while place is not None:
            because, of = self._cause(place)
            yield ChainLink(sheet[place].code, because, None if of is None else sheet[of].code)
            place = of

    def _cause(self, place: int) -> tuple[Because, int | None]:
        causes = list(self._causes(place))
        latest = max(moment for moment, _, _ in causes)
        _, because, of = min(
            (cause for cause in causes if cause[0] == latest),
            key=lambda cause: (_ORDER.index(cause[1]), -1 if cause[2] is None else cause[2]),
        )
        return because, of

    def _causes(self, place: int) -> Iterator[tuple[int, Because, int | None]]:
        """The moments an operation waited for, with their reasons."""
        yield self.available_from, "drop_off", None
        arrival = self._arrivals[place]
        if arrival is not None:
            yield arrival, "not_before", None
        for before in self._planner.before[place]:
            operation = self._planner.sheet[before]
            because: Because = "wait" if operation.wait_after or operation.wait_days else "after"
            yield self._slots[before].released, because, before
        previous = self._slots[place].previous
        if previous is not None:
            yield self._slots[previous].end, "technician", previous
