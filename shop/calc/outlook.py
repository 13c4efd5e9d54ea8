"""Which day the vehicle should come, and when it is ready: the calculation of outlook (fixtures/vectors/outlook.json).

Units: as in the calculation of promise. Two rules stand over it. Nobody takes a vehicle apart to let it stand, so an
operation of no return also waits for what would come too late while the vehicle cannot move. And the customer keeps
the vehicle for as long as that costs no half day.
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
    """From a `no_return` the vehicle cannot move until the first `mobile_again` at or after it."""

    no_return: bool = False
    mobile_again: bool = False


@dataclass(frozen=True, slots=True)
class OutlookInput:
    """The sheet in order, asked `now`. `here_from`: the date from which the vehicle is here; None: we propose one.

    The `not_before` of an arrival holds the shop's buffer already.
    """

    calendar: WorkCalendar
    now: datetime
    operations: tuple[OutlookOperation, ...]
    technicians: int = 1
    efficiency: Decimal = Decimal(1)
    here_from: date | None = None


@dataclass(frozen=True, slots=True)
class Candidate:
    """A moment from which the vehicle could be worked on, and the half day on which it would be ready then."""

    since: datetime
    ready: HalfDay


@dataclass(frozen=True, slots=True)
class Outlook:
    """`bring`: when the vehicle has to be here; `since`: the candidate that was chosen of those `tried`.

    `waits_for`: operation of no return -> the operation whose arrival it waits for, which may be itself.
    """

    bring: datetime
    since: datetime
    ready: HalfDay
    promise: Promise
    tried: tuple[Candidate, ...]
    waits_for: Mapping[str, str]


def outlook(enquiry: OutlookInput) -> Outlook:
    """The drop-off that is ready on the earliest half day: the latest of several, the earliest with `here_from`.

    Refuses `never_open` (the zone) before all else, `bad_efficiency`, `too_far` (years) and, from the network of
    operations, `loop` (its members in order), `unknown_operation`, `duplicate_operation`, `negative_hours` (the code).
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
    """The plan from any minute on."""

    def __init__(self, enquiry: OutlookInput) -> None:
        self._planner = Planner(enquiry.calendar, enquiry.operations, enquiry.technicians, enquiry.efficiency)
        self.hours = self._planner.hours
        self._enquiry = enquiry
        self._at_once: Arrivals = [None] * len(enquiry.operations)
        self._closures = dict(self._waiting_closures())

    def tried(self) -> Iterator[Candidate]:
        """t0, then the opening of every later date up to the one on which the plan from t0 is ready."""
        first = self._candidate(self._t0())
        yield first
        day = self.hours.date_of(minute_of(first.since))
        while self._enquiry.operations and day < first.ready.day:
            day += timedelta(days=1)
            for begin, _ in self.hours.open_on(day)[:1]:
                yield self._candidate(begin)

    def plan(self, since: int) -> tuple[Schedule, Mapping[int, int]]:
        """The plan, and for each operation of no return that waits the operation whose arrival it waits for."""
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
        """Each operation of no return with the latest of its own arrival and of those that would come too late.

        Too late is what comes after the start, at once, of the operation that needs it.
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
        """Of the operations in the closures, those that could start before what they need is here."""
        arrivals = {
            member: self._planner.arrivals[member] or 0 for closure in self._closures.values() for member in closure
        }
        if not arrivals or min(arrivals.values()) > self._planner.latest_start(since):
            return set(arrivals)
        starts = self._planner.schedule(since, self._at_once).starts
        return {place for place, arrival in arrivals.items() if arrival > starts[place]}

    def _waiting_closures(self) -> Iterator[tuple[int, Sequence[int]]]:
        """Operation of no return -> those with an arrival that lie in its window, or that one in it comes after."""
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
        """The operations and all that they come after, directly or through a chain."""
        closure: set[int] = set()
        open_ends = list(places)
        while open_ends:
            place = open_ends.pop()
            if place not in closure:
                closure.add(place)
                open_ends += self._planner.before[place]
        return closure
