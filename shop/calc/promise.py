"""The date on which a vehicle can be ready, and its critical chain: the calculation of promise.

Worked cases: fixtures/vectors/promise.json. Units: billed hours; whole minutes of opening hours; waits in minutes of
the wall clock; instants carry their zone.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from functools import lru_cache
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
    """One operation: billed `hours`, the codes of its predecessors, and the wait after it in minutes of the clock.

    `not_before` is the arrival of a part or a file that it needs. `wait_days` is the number of open dates after which
    another firm, which takes over at the end of the operation, returns the work at closing time; 0: no other firm.
    """

    code: str
    hours: Decimal
    after: tuple[str, ...] = ()
    wait_after: int = 0
    not_before: datetime | None = None
    wait_days: int = 0


@dataclass(frozen=True, slots=True)
class Plan:
    """The sheet in order, the opening hours, and the moment from which the vehicle is in the workshop.

    `technicians` (at least one) work in parallel; `efficiency` is billed hours per hour of the clock.
    """

    calendar: WorkCalendar
    available_from: datetime
    operations: tuple[PlannedOperation, ...]
    technicians: int = 1
    efficiency: Decimal = Decimal(1)


@dataclass(frozen=True, slots=True)
class Booking:
    """The start of an operation and the end of its last minute, in the shop's zone."""

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
    """The plan's result. `schedule` is in sheet order, `chain` runs from the end back to the start.

    `finish` may lie outside opening hours, when the last wait ends then.
    """

    finish: datetime
    schedule: tuple[Booking, ...]
    chain: tuple[ChainLink, ...]


@dataclass(frozen=True, slots=True)
class _Slot:
    """A booked operation in minutes. Successors may start at `released`, after its wait and its return.

    `previous` is the place of the operation that the same technician did before.
    """

    start: int
    end: int
    released: int
    previous: int | None


@lru_cache(maxsize=4096)
def clock_minutes(hours: Decimal, efficiency: Decimal) -> int:
    """Whole clock minutes that one technician needs for billed hours, at `efficiency` billed hours per clock hour."""
    return ceil(Fraction(hours) * 60 / Fraction(efficiency))


def promise(plan: Plan) -> Promise:
    """The plan by serial scheduling: the operation with the earliest possible start comes next; ties go by the sheet.

    Refuses `bad_efficiency` (not above 0), `never_open` (the zone), `too_far` (years) and, from the network of
    operations, `loop` (its codes in order), `unknown_operation`, `duplicate_operation`, `negative_hours` (the code).
    """
    planner = Planner(plan.calendar, plan.operations, plan.technicians, plan.efficiency)
    return planner.schedule(minute_of(plan.available_from), planner.arrivals).promise()


def _longest_absence(operation: PlannedOperation) -> int:
    """The most open minutes for which another firm can keep the work."""
    return (operation.wait_days + 1) * DAY if operation.wait_days > 0 else 0


Arrivals = Sequence[int | None]
"""The minute before which each operation cannot start, in sheet order; None: no such minute."""

_Tail = tuple[frozenset[int], int, tuple[int | None, ...]]
"""The memo key of a plan's remainder: the places left at a quiet minute, that minute, and the arrivals."""


class Planner:
    """Plans the operations of one sheet for any start. Everything independent of the start is worked out once."""

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
        """The plan from a start on. `arrivals` replace the operations' own `not_before`."""
        return Schedule(self, available_from, arrivals)

    def finish(self, available_from: int, arrivals: Arrivals) -> int:
        """The finish of that plan, memoised in two ways.

        Plans that are in the same state at a quiet minute share the rest. All plans in which everything without an
        arrival is done before the first arrival share their finish; otherwise an arrival years ahead would cost one
        plan a day.
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
        """An upper bound for every start when nothing has to arrive: until then someone works or a wait is running."""
        return self.hours.after_work(available_from, self._longest)


class Schedule:
    """A plan in minutes: the time from which each technician is free, and the slot of each operation by its place.

    `finish` is the minute in which the last wait ends; without operations, the minute in which the vehicle comes.
    """

    def __init__(
        self, planner: Planner, available_from: int, arrivals: Arrivals, tails: dict[_Tail, int] | None = None
    ) -> None:
        """With `tails`, scheduling stops once they give the finish, and new remainders are added to them."""
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
        """The first minute of each operation, in sheet order."""
        return [self._slots[place].start for place in range(len(self._slots))]

    def promise(self) -> Promise:
        """The schedule as instants, with the chain of causes of its finish."""
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
        """Books all operations with two queues: by the sheet once a technician could start them, else by their moments.

        The earliest moment at which a technician is free never decreases, so an operation that can start stays
        startable.
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
        """True if the finish is known from `tails`.

        Requires a quiet `minute`: all work begun is done and every wait is over.
        """
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
        """The first open minute at which the operation could start if a technician were free."""
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
        """The minute in which successors may start: after the wait, and after the return from another firm."""
        released = end + operation.wait_after
        if operation.wait_days > 0:
            released = max(released, self._hours.closing_after(end, operation.wait_days))
        return released

    def _chain(self, place: int | None) -> Iterator[ChainLink]:
        """The chain from `place` back along the latest cause of each start.

        Ties go by `_ORDER`, then by sheet order.
        """
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
        """The moments that an operation waited for, each with its reason and its operation."""
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
