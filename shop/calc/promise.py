"""When the vehicle can be ready, and what it waits for: the calculation of promise (fixtures/vectors/promise.json).

Units: billed hours, whole minutes of opening hours, waits in minutes of the wall clock; instants carry their zone.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal
from fractions import Fraction
from heapq import heappop, heappush
from math import ceil
from typing import Literal

from shop.calc.network import Waiting, walk
from shop.calc.refusal import Refusal
from shop.calc.worktime import HORIZON, Calendar, OpeningHours, instant_of, minute_of, too_far

Because = Literal["after", "wait", "technician", "not_before", "drop_off"]
_ORDER: tuple[Because, ...] = ("after", "wait", "technician", "not_before", "drop_off")


@dataclass(frozen=True, slots=True)
class PlannedOperation:
    """One operation: billed `hours`, what it comes `after`, minutes of the wall clock to wait once it is done.

    `not_before` is the arrival of an item or a file it cannot do without.
    """

    code: str
    hours: Decimal
    after: tuple[str, ...] = ()
    wait_after: int = 0
    not_before: datetime | None = None


@dataclass(frozen=True, slots=True)
class Plan:
    """The sheet in order, the shop's hours, and from when the vehicle is there.

    `technicians` work side by side (at least one); `efficiency` is billed hours an hour of the clock.
    """

    calendar: Calendar
    available_from: datetime
    operations: tuple[PlannedOperation, ...]
    technicians: int = 1
    efficiency: Decimal = Decimal(1)


@dataclass(frozen=True, slots=True)
class Booked:
    """When an operation starts and when its last minute is over, in the shop's zone."""

    code: str
    start: datetime
    end: datetime


@dataclass(frozen=True, slots=True)
class Link:
    """What an operation waited for last: another operation (`of`), or an arrival or the drop-off (None)."""

    code: str
    because: Because
    of: str | None


@dataclass(frozen=True, slots=True)
class Promise:
    """`finish` may lie in closed hours (a last cure); `schedule` in sheet order; `chain` from the end back."""

    finish: datetime
    schedule: tuple[Booked, ...]
    chain: tuple[Link, ...]


@dataclass(frozen=True, slots=True)
class _Slot:
    """An operation in minutes: start, end, end of the wait, and what its technician finished just before."""

    start: int
    end: int
    released: int
    previous: str | None


def clock_minutes(hours: Decimal, efficiency: Decimal) -> int:
    """Whole minutes of the clock that billed hours take one technician, `efficiency` billed hours an hour."""
    return ceil(Fraction(hours) * 60 / Fraction(efficiency))


def promise(plan: Plan) -> Promise:
    """Always start next the operation with the earliest possible start; ties by the sheet.

    Refuses `bad_efficiency` (not above 0), `never_open` (the zone), `too_far` (years) and, from the network of
    operations, `loop` (its members in order), `unknown_operation`, `duplicate_operation`, `negative_hours` (the code).
    """
    if not plan.efficiency.is_finite() or plan.efficiency <= 0:
        raise Refusal("bad_efficiency", str(plan.efficiency))
    walk(plan.operations)
    zone = plan.calendar.zone
    schedule = _Schedule(plan)
    slots = schedule.book()
    if not slots:
        return Promise(instant_of(schedule.available_from, zone), (), ())
    last = max(plan.operations, key=lambda one: (slots[one.code].released, schedule.places[one.code]))
    return Promise(
        finish=instant_of(slots[last.code].released, zone),
        schedule=tuple(_booked(one.code, slots, plan) for one in plan.operations),
        chain=tuple(schedule.chain(last.code)),
    )


def _booked(code: str, slots: Mapping[str, _Slot], plan: Plan) -> Booked:
    slot, zone = slots[code], plan.calendar.zone
    return Booked(code, instant_of(slot.start, zone), instant_of(slot.end, zone))


class _Schedule:
    """The plan being filled: who is free from when, and the slots given so far."""

    def __init__(self, plan: Plan) -> None:
        self.available_from = minute_of(plan.available_from)
        self.places = {one.code: place for place, one in enumerate(plan.operations)}
        self._sheet = plan.operations
        self._operations = {one.code: one for one in plan.operations}
        self._efficiency = plan.efficiency
        self._hours = OpeningHours(plan.calendar)
        people = min(plan.technicians, max(len(plan.operations), 1))
        self._free = [self.available_from] * people
        self._finished: list[str | None] = [None] * people
        self._slots: dict[str, _Slot] = {}

    def book(self) -> Mapping[str, _Slot]:
        """Those that may start as soon as a technician is free go by the sheet, all others by their moments.

        Technicians are never free earlier than they were, so that who may start once may start from then on.
        """
        waiting = Waiting(self._sheet)
        now: list[int] = []
        later = sorted((self._possible(place), place) for place in waiting.ready)
        while now or later:
            free = self._hours.first_open(min(self._free))
            while later and later[0][0] <= free:
                heappush(now, heappop(later)[1])
            start, place = (free, heappop(now)) if now else heappop(later)
            self._give(self._sheet[place], start)
            for follower in waiting.without(place):
                heappush(later, (self._possible(follower), follower))
        return self._slots

    def _possible(self, place: int) -> int:
        """The first open minute at which the operation may start, if a technician is free."""
        return self._hours.first_open(max(moment for moment, _, _ in self._conditions(self._sheet[place])))

    def _give(self, operation: PlannedOperation, start: int) -> None:
        technician = self._free.index(min(self._free))
        minutes = clock_minutes(operation.hours, self._efficiency)
        end = self._hours.after_work(start, minutes) if minutes else start
        released = end + operation.wait_after
        if released - self.available_from > HORIZON:
            raise too_far()
        self._slots[operation.code] = _Slot(start, end, released, self._finished[technician])
        self._free[technician] = end
        self._finished[technician] = operation.code

    def _conditions(self, operation: PlannedOperation) -> Iterator[tuple[int, Because, str | None]]:
        """The moments an operation waits for, beside a technician."""
        yield self.available_from, "drop_off", None
        if operation.not_before is not None:
            yield minute_of(operation.not_before), "not_before", None
        for code in operation.after:
            because: Because = "wait" if self._operations[code].wait_after else "after"
            yield self._slots[code].released, because, code

    def chain(self, code: str | None) -> Iterator[Link]:
        """From `code` back along the latest cause of each; ties as `_ORDER`, then the first on the sheet."""
        while code is not None:
            link = self._cause(code)
            yield link
            code = link.of

    def _cause(self, code: str) -> Link:
        causes = list(self._conditions(self._operations[code]))
        previous = self._slots[code].previous
        if previous is not None:
            causes.append((self._slots[previous].end, "technician", previous))
        latest = max(moment for moment, _, _ in causes)
        _, because, of = min(
            (cause for cause in causes if cause[0] == latest),
            key=lambda cause: (_ORDER.index(cause[1]), self.places.get(cause[2] or "", -1)),
        )
        return Link(code, because, of)
