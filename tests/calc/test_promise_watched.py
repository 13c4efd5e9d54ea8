"""Compares a promise with a simulated workshop, minute by minute: who works, who waits, and for what."""

from dataclasses import dataclass, field
from datetime import date, datetime, timedelta
from decimal import Decimal
from functools import cache
from math import ceil
from zoneinfo import ZoneInfo

from hypothesis import given, settings
from hypothesis import strategies as st

from shop.calc.promise import Plan, PlannedOperation, promise
from shop.calc.worktime import WorkCalendar
from tests.calc.test_promise import CLOCK_CHANGES, ZONES
from tests.examples import many


@dataclass
class Technician:
    free: int
    busy_with: str | None = None
    left: int = 0
    before: str | None = None


@dataclass
class Workshop:
    """A simulation in minutes from 1970. A minute is open by the local time of the shop."""

    plan: Plan
    technicians: list[Technician] = field(init=False)
    started: dict[str, int] = field(default_factory=dict)
    ended: dict[str, int] = field(default_factory=dict)
    hands_from: dict[str, str | None] = field(default_factory=dict)
    over: dict[str, int] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.operations = {operation.code: operation for operation in self.plan.operations}
        self.technicians = [Technician(whole(self.plan.available_from)) for _ in range(self.plan.technicians)]

    def watch(self) -> None:
        now = whole(self.plan.available_from)
        while len(self.ended) < len(self.plan.operations):
            if self.is_open(now):
                while self.begin_one(now):
                    pass
                self.work(now)
            now += 1

    def is_open(self, now: int) -> bool:
        day, weekday, of_day = on_the_wall(now, self.plan.calendar.zone)
        return (
            any(a <= of_day < b for a, b in self.plan.calendar.week[weekday]) and day not in self.plan.calendar.closed
        )

    def begin_one(self, now: int) -> bool:
        """Begins the first possible operation on the sheet, with the technician who has been free longest."""
        idle = [technician for technician in self.technicians if technician.busy_with is None]
        ready = [
            candidate
            for candidate in self.plan.operations
            if candidate.code not in self.started and self.may_begin(candidate, now)
        ]
        if not idle or not ready:
            return False
        hands, operation = min(idle, key=lambda technician: technician.free), ready[0]
        self.started[operation.code], self.hands_from[operation.code] = now, hands.before
        hands.busy_with = operation.code
        hands.left = ceil(operation.hours * 60 / self.plan.efficiency)
        if hands.left == 0:
            self.finish(hands, now)
        return True

    def may_begin(self, operation: PlannedOperation, now: int) -> bool:
        return all(code in self.ended for code in operation.after) and all(
            moment <= now for moment, _, _ in self.conditions(operation)
        )

    def conditions(self, operation: PlannedOperation) -> list[tuple[int, str, str | None]]:
        """(moment, because, of), in the order that settles ties."""
        sheet = [code for code in self.operations if code in operation.after]
        waits = [code for code in sheet if self.operations[code].wait_after or self.operations[code].wait_days]
        conditions = [(self.ended[code], "after", code) for code in sheet if code not in waits]
        conditions += [(self.released(code), "wait", code) for code in waits]
        hands = self.hands_from.get(operation.code)
        if hands is not None:
            conditions.append((self.ended[hands], "technician", hands))
        if operation.not_before is not None:
            conditions.append((whole(operation.not_before), "not_before", None))
        return [*conditions, (whole(self.plan.available_from), "drop_off", None)]

    def released(self, code: str) -> int:
        if code not in self.over:
            self.over[code] = max(self.ended[code] + self.operations[code].wait_after, self.given_back(code))
        return self.over[code]

    def given_back(self, code: str) -> int:
        """The time after the last open minute of the n-th open date that follows the date of the end."""
        minute = back = self.ended[code]
        zone, dates = self.plan.calendar.zone, list[date]()
        first, days = on_the_wall(minute, zone)[0], self.operations[code].wait_days
        while days and (len(dates) < days or on_the_wall(minute, zone)[0] == dates[-1]):
            day = on_the_wall(minute, zone)[0]
            if day != first and self.is_open(minute):
                dates += [day] if day not in dates else []
                back = minute + 1
            minute += 1
        return back

    def work(self, now: int) -> None:
        for hands in self.technicians:
            if hands.busy_with is not None:
                hands.left -= 1
                if hands.left == 0:
                    self.finish(hands, now + 1)

    def finish(self, hands: Technician, now: int) -> None:
        assert hands.busy_with is not None
        self.ended[hands.busy_with] = hands.free = now
        hands.before, hands.busy_with = hands.busy_with, None

    def chain(self) -> list[tuple[str, str, str | None]]:
        operations = {operation.code: operation for operation in self.plan.operations}
        gone = {code: self.released(code) for code in self.ended}
        code: str | None = [operation for operation in operations if gone[operation] == max(gone.values())][-1]
        links = []
        while code is not None:
            conditions = self.conditions(operations[code])
            _, because, of = next(
                condition for condition in conditions if condition[0] == max(moment for moment, _, _ in conditions)
            )
            links.append((code, because, of))
            code = of
        return links


@cache
def on_the_wall(minute: int, zone: ZoneInfo) -> tuple[date, int, int]:
    """Date, weekday and minute of the day in local time."""
    clock = datetime.fromtimestamp(minute * 60, zone)
    return clock.date(), clock.weekday(), clock.hour * 60 + clock.minute


def whole(instant: datetime) -> int:
    return ceil(instant.timestamp() / 60)


def clock(minute: int, plan: Plan) -> str:
    return datetime.fromtimestamp(minute * 60, plan.calendar.zone).isoformat()


hours = st.tuples(st.integers(0, 24), st.integers(0, 24)).map(lambda pair: (min(pair) * 60, max(pair) * 60 - 1))


def instants_around(day: datetime) -> st.SearchStrategy[datetime]:
    return st.builds(
        lambda half, seconds: day + timedelta(minutes=30 * half, seconds=seconds),
        st.integers(0, 50),
        st.sampled_from([0, 0, 0, 1, 59]),
    )


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    """Plans around a night with a clock change, in a shop that is open at night too."""
    instants = instants_around(draw(st.sampled_from(CLOCK_CHANGES)))
    week = tuple((*draw(st.lists(hours, max_size=2)), (30, 300)) for _ in range(7))
    closed = draw(st.sets(st.sampled_from([(day + timedelta(days=1)).date() for day in CLOCK_CHANGES])))
    operations = []
    for at in range(draw(st.integers(2, 6))):
        before = st.lists(st.sampled_from([f"O{earlier}" for earlier in range(at)]), max_size=2, unique=True)
        operation = PlannedOperation(
            code=f"O{at}",
            hours=Decimal(draw(st.sampled_from(["0", "0.1", "0.5", "0.5", "1", "2.3"]))),
            after=tuple(draw(before)) if at else (),
            wait_after=draw(st.sampled_from([0, 0, 0, 30, 90, 600])),
            wait_days=draw(st.sampled_from([0, 0, 0, 1, 2])),
            not_before=draw(st.none() | instants),
        )
        operations.append(operation)
    return Plan(
        calendar=WorkCalendar(draw(st.sampled_from(ZONES)), week, frozenset(closed)),
        available_from=draw(instants),
        operations=tuple(draw(st.permutations(operations))),
        technicians=draw(st.sampled_from([1, 2, 2])),
        efficiency=draw(st.sampled_from([Decimal(1), Decimal(1), Decimal("1.15"), Decimal("0.7")])),
    )


@settings(max_examples=many(100))
@given(plans())
def test_it_is_what_a_clock_on_the_wall_sees(plan: Plan) -> None:
    shop, result = Workshop(plan), promise(plan)
    shop.watch()
    assert [(entry.code, entry.start.isoformat(), entry.end.isoformat()) for entry in result.schedule] == [
        (entry.code, clock(shop.started[entry.code], plan), clock(shop.ended[entry.code], plan))
        for entry in plan.operations
    ]
    last = max(shop.released(entry.code) for entry in plan.operations)
    assert result.finish.isoformat() == clock(last, plan)
    assert [(link.code, link.because, link.of) for link in result.chain] == shop.chain()
