"""The best day to bring the vehicle, and the day it is ready: the calculation of outlook.

Worked cases: fixtures/vectors/outlook.json. Units: as in the calculation of promise.

Two rules apply. First, nobody takes a vehicle apart to let it stand: an operation of no return also waits for every
delivery that would arrive too late while the vehicle cannot move. Second, the customer keeps the vehicle for as long
as that does not delay the half day on which it is ready.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from datetime import date, datetime, timedelta
from decimal import Decimal

from shop.calc.days import HalfDay, half_day_after
from shop.calc.promise import Arrivals, PlannedOperation, Planner, Promise, Schedule
from shop.calc.worktime import OpeningHours, WorkCalendar, instant_of, minute_of


@dataclass(frozen=True, slots=True)
class OutlookOperation(PlannedOperation):
    """A planned operation.

    After a `no_return` the vehicle cannot move until the next `mobile_again`, which may be itself.
    """

    no_return: bool = False
    mobile_again: bool = False


@dataclass(frozen=True, slots=True)
class OutlookInput:
    """The sheet in order, and the moment `now` of the enquiry.

    `here_from` is the date from which the vehicle is in the workshop; None: the calculation proposes one. The
    `not_before` of an operation already includes the shop's buffer.
    """

    calendar: WorkCalendar
    now: datetime
    operations: tuple[OutlookOperation, ...]
    technicians: int = 1
    efficiency: Decimal = Decimal(1)
    here_from: date | None = None


@dataclass(frozen=True, slots=True)
class Candidate:
    """A possible start of the work, and the half day on which the vehicle would be ready."""

    since: datetime
    ready: HalfDay


@dataclass(frozen=True, slots=True)
class Outlook:
    """The result: the vehicle comes at `bring`, work begins at `since`, the best of the candidates `tried`.

    `waits_for` maps an operation of no return to the operation whose delivery it waits for, which may be itself.
    """

    bring: datetime
    since: datetime
    ready: HalfDay
    promise: Promise
    tried: tuple[Candidate, ...]
    waits_for: Mapping[str, str]


def outlook(enquiry: OutlookInput) -> Outlook:
    """The drop-off that is ready on the earliest half day; of several the latest, or the earliest with `here_from`.

    Refuses `never_open` (the zone) first of all, `bad_efficiency`, `too_far` (years) and, from the network of
    operations, `loop` (its codes in order), `unknown_operation`, `duplicate_operation`, `negative_hours` (the code).
    """
    OpeningHours(enquiry.calendar)
    plans = _Plans(enquiry)
    tried = tuple(plans.tried())
    best = min(candidate.ready.order for candidate in tried)
    chosen = [candidate for candidate in tried if candidate.ready.order == best][0 if enquiry.here_from else -1]
    zone = enquiry.calendar.zone
    comes = tried[0] if enquiry.here_from else chosen
    schedule, causes = plans.plan(minute_of(chosen.since))
    return Outlook(
        bring=instant_of(plans.hours.first_open(minute_of(comes.since)), zone),
        since=chosen.since,
        ready=chosen.ready,
        promise=schedule.promise(),
        tried=tried,
        waits_for={enquiry.operations[place].code: enquiry.operations[cause].code for place, cause in causes.items()},
    )


class _Plans:
    """Makes the plan for any start."""

    def __init__(self, enquiry: OutlookInput) -> None:
        self._planner = Planner(enquiry.calendar, enquiry.operations, enquiry.technicians, enquiry.efficiency)
        self.hours = self._planner.hours
        self._enquiry = enquiry
        self._at_once: Arrivals = [None] * len(enquiry.operations)
        self._closures = dict(self._waiting_closures())

    def tried(self) -> Iterator[Candidate]:
        """The earliest start (t0), then the opening of each later date up to the one on which t0's plan is ready."""
        first = self._candidate(self._t0())
        yield first
        day = self.hours.date_of(minute_of(first.since))
        while self._enquiry.operations and day < first.ready.day:
            day += timedelta(days=1)
            for begin, _ in self.hours.open_on(day)[:1]:
                yield self._candidate(begin)

    def plan(self, since: int) -> tuple[Schedule, Mapping[int, int]]:
        """The plan, and a map from each waiting operation of no return to the operation whose delivery it waits for."""
        causes = self._causes(since)
        return self._planner.schedule(since, self._arrivals(causes)), causes

    def _t0(self) -> int:
        now, here_from = minute_of(self._enquiry.now), self._enquiry.here_from
        if here_from is None or here_from <= self.hours.date_of(now):
            return now
        return self.hours.opening(here_from)

    def _candidate(self, since: int) -> Candidate:
        finish = self._planner.finish(since, self._arrivals(self._causes(since)))
        return Candidate(instant_of(since, self._enquiry.calendar.zone), half_day_after(finish, self.hours))

    def _arrivals(self, causes: Mapping[int, int]) -> Arrivals:
        arrivals = list(self._planner.arrivals)
        for place, cause in causes.items():
            arrivals[place] = self._planner.arrivals[cause]
        return arrivals

    def _causes(self, since: int) -> dict[int, int]:
        """Maps each operation of no return to the operation with the delivery that it has to wait for last.

        These are its own delivery and those that arrive after the operation that needs them could start.
        """
        late = self._late_members(since)
        causes: dict[int, int] = {}
        for place, closure in self._closures.items():
            waits = [
                (self._planner.arrivals[member] or 0, -member)
                for member in closure
                if member == place or member in late
            ]
            if waits:
                causes[place] = -max(waits)[1]
        return causes

    def _late_members(self, since: int) -> set[int]:
        """The operations in the closures that could start before their delivery arrives."""
        arrivals = {
            member: self._planner.arrivals[member] or 0 for closure in self._closures.values() for member in closure
        }
        if not arrivals or min(arrivals.values()) > self._planner.latest_start(since):
            return set(arrivals)
        starts = self._planner.schedule(since, self._at_once).starts
        return {place for place, arrival in arrivals.items() if arrival > starts[place]}

    def _waiting_closures(self) -> Iterator[tuple[int, Sequence[int]]]:
        """(operation of no return, the operations with an arrival in the transitive closure of its window)."""
        order = [self._planner.places[operation.code] for operation in self._planner.walked]
        for begin, place in enumerate(order):
            if self._enquiry.operations[place].no_return:
                closure = self._closure(self._window(order[begin:]))
                waiting = [member for member in closure if self._planner.arrivals[member] is not None]
                if waiting:
                    yield place, sorted(waiting)

    def _window(self, order: Sequence[int]) -> Iterator[int]:
        for place in order:
            yield place
            if self._enquiry.operations[place].mobile_again:
                return

    def _closure(self, places: Iterator[int]) -> set[int]:
        """The operations with all their direct and indirect predecessors."""
        closure: set[int] = set()
        open_ends = list(places)
        while open_ends:
            place = open_ends.pop()
            if place not in closure:
                closure.add(place)
                open_ends += self._planner.before[place]
        return closure
