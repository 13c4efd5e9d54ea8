"""Promise dates: opening hours minute by minute, and properties of every schedule beyond the worked cases."""

from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from itertools import pairwise
from math import ceil
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shop.calc.errors import CalculationError
from shop.calc.promise import Plan, PlannedOperation, Promise, promise
from shop.calc.worktime import OpeningHours, WorkCalendar, instant_of, minute_of
from tests.examples import many

ZONES = [ZoneInfo(name) for name in ("America/Toronto", "Australia/Lord_Howe", "Asia/Kolkata", "UTC")]
CLOCK_CHANGES = [datetime(2026, 3, 7, tzinfo=UTC), datetime(2026, 10, 31, tzinfo=UTC), datetime(2026, 4, 4, tzinfo=UTC)]

spans = st.tuples(st.integers(0, 24), st.integers(0, 24)).map(lambda pair: (min(pair) * 60, max(pair) * 60))
starts = st.builds(
    lambda day, minutes: day + timedelta(minutes=minutes),
    st.sampled_from(CLOCK_CHANGES),
    st.one_of(st.integers(0, 2880), st.integers(0, 48).map(lambda hour: hour * 60)),
)


@st.composite
def calendars(draw: st.DrawFn) -> WorkCalendar:
    """Open on the third day at the latest, so that counting by minutes ends."""
    week = [tuple(draw(st.lists(spans, max_size=3))) for _ in range(7)]
    for day in (0, 2, 4, 6):
        week[day] += ((120, 180),)
    closed = draw(st.sampled_from([frozenset(), frozenset({date(2026, 3, 8), date(2026, 11, 1), date(2026, 4, 5)})]))
    return WorkCalendar(draw(st.sampled_from(ZONES)), tuple(week), closed)


def is_open(minute: int, calendar: WorkCalendar) -> bool:
    local = datetime.fromtimestamp(minute * 60, calendar.zone)
    of_day = local.hour * 60 + local.minute
    return local.date() not in calendar.closed and any(
        begin <= of_day < end for begin, end in calendar.week[local.weekday()]
    )


@settings(max_examples=many(60))
@given(calendars(), starts, st.integers(0, 500))
def test_hours_are_those_of_a_clock_watched_minute_by_minute(calendar, start, work):
    hours, minute = OpeningHours(calendar), minute_of(start)
    first = minute
    while not is_open(first, calendar):
        first += 1
    assert hours.first_open(minute) == first
    end, left = first, work
    while left:
        left -= is_open(end, calendar)
        end += 1
    assert hours.after_work(first, work) == end


@st.composite
def plans(draw: st.DrawFn) -> Plan:
    operations = []
    for at in range(draw(st.integers(1, 6))):
        before = [f"O{earlier}" for earlier in range(at)]
        operations.append(
            PlannedOperation(
                code=f"O{at}",
                hours=Decimal(draw(st.integers(0, 40))) / 10,
                after=tuple(draw(st.lists(st.sampled_from(before), max_size=2, unique=True))) if at else (),
                wait_after=draw(st.sampled_from([0, 0, 90, 1440])),
                wait_days=draw(st.sampled_from([0, 0, 0, 1, 2])),
                not_before=draw(st.one_of(st.none(), starts)),
            )
        )
    return Plan(
        calendar=draw(calendars()),
        available_from=draw(starts),
        operations=tuple(draw(st.permutations(operations))),
        technicians=draw(st.sampled_from([1, 2])),
        efficiency=draw(st.sampled_from([Decimal(1), Decimal("1.15"), Decimal("0.7")])),
    )


def waits(plan: Plan, code: str) -> bool:
    return any(
        operation.code == code and (operation.wait_after or operation.wait_days) for operation in plan.operations
    )


def released(plan: Plan, code: str, end: int) -> int:
    """The minute from which successors may start."""
    operation = next(candidate for candidate in plan.operations if candidate.code == code)
    day, back, left = datetime.fromtimestamp(end * 60, plan.calendar.zone).date(), end, operation.wait_days
    while left:
        day += timedelta(days=1)
        if spans := OpeningHours(plan.calendar).open_on(day):
            left, back = left - 1, spans[-1][1]
    return max(end + operation.wait_after, back)


def minutes_of(result: Promise) -> dict[str, tuple[int, int]]:
    """Start and end of each operation in minutes, because instants of one zone compare by local time."""
    return {booking.code: (minute_of(booking.start), minute_of(booking.end)) for booking in result.schedule}


@given(plans())
def test_no_operation_starts_before_it_may_and_each_gets_its_minutes(plan):
    booked = minutes_of(promise(plan))
    hours = OpeningHours(plan.calendar)
    for operation in plan.operations:
        start, end = booked[operation.code]
        arrival = operation.not_before or plan.available_from
        moments = [released(plan, code, booked[code][1]) for code in operation.after]
        assert start >= max([minute_of(plan.available_from), minute_of(arrival), *moments])
        assert hours.first_open(start) == start
        minutes = ceil(operation.hours * 60 / plan.efficiency)
        assert end == (hours.after_work(start, minutes) if minutes else start)


@given(plans())
def test_it_is_ready_when_the_last_wait_is_over(plan):
    result = promise(plan)
    over = {code: released(plan, code, end) for code, (_, end) in minutes_of(result).items()}
    assert minute_of(result.finish) == max(over.values()) == over[result.chain[0].code]
    assert result.finish.tzinfo is plan.calendar.zone


@given(plans())
def test_never_more_operations_at_once_than_technicians(plan):
    booked = minutes_of(promise(plan)).values()
    for start, _ in booked:
        assert sum(begin <= start < end for begin, end in booked) <= plan.technicians


@given(plans())
def test_the_chain_leads_from_the_end_to_an_arrival_or_the_drop_off(plan):
    result = promise(plan)
    booked = minutes_of(result)
    last = result.chain[-1]
    assert last.because in ("not_before", "drop_off") and last.of is None
    for link, following in pairwise(result.chain):
        assert link.of == following.code
        assert link.because in ("after", "wait", "technician")
        assert link.because == "technician" or (link.because == "wait") == waits(plan, following.code)
        assert booked[following.code][1] <= booked[link.code][0]


def scheduled_oracle(plan: Plan) -> dict[str, tuple[int, int]]:
    """A second implementation of the document's rule: each turn tries every operation that may come next."""
    hours, begun = OpeningHours(plan.calendar), minute_of(plan.available_from)
    free, done = [begun] * plan.technicians, dict[str, tuple[int, int]]()
    while len(done) < len(plan.operations):
        tried = []
        for place, operation in enumerate(plan.operations):
            if operation.code in done or not all(code in done for code in operation.after):
                continue
            moments = [begun, min(free), *(released(plan, code, done[code][1]) for code in operation.after)]
            arrival = [] if operation.not_before is None else [minute_of(operation.not_before)]
            tried.append((hours.first_open(max(moments + arrival)), place))
        start, place = min(tried)
        chosen = plan.operations[place]
        minutes = ceil(chosen.hours * 60 / plan.efficiency)
        end = hours.after_work(start, minutes) if minutes else start
        done[chosen.code] = (start, end)
        free[free.index(min(free))] = end
    return done


@given(plans())
def test_the_operation_that_can_start_first_is_started_next(plan):
    assert minutes_of(promise(plan)) == scheduled_oracle(plan)


WEEKDAYS = WorkCalendar(ZONES[0], ((((480, 720)), (780, 1020)),) * 5 + ((), ()))
MONDAY = datetime(2026, 2, 2, 8, tzinfo=ZONES[0])


def a_plan(*operations: PlannedOperation, **more: object) -> Plan:
    return replace(Plan(WEEKDAYS, MONDAY, operations), **more)


def an_operation(code: str, hours: str = "1", **more: object) -> PlannedOperation:
    return replace(PlannedOperation(code, Decimal(hours)), **more)


def test_an_instant_with_seconds_counts_as_the_next_minute():
    assert minute_of(datetime(1970, 1, 1, 0, 1, 0, 1, tzinfo=UTC)) == 2
    assert minute_of(datetime(1970, 1, 1, 0, 1, tzinfo=UTC)) == 1
    assert minute_of(datetime(1969, 12, 31, 23, 59, 30, tzinfo=UTC)) == 0
    result = promise(a_plan(an_operation("A"), available_from=MONDAY + timedelta(minutes=5, seconds=1)))
    assert result.schedule[0].start == MONDAY + timedelta(minutes=6)


def test_nothing_to_do_is_finished_when_the_vehicle_comes():
    sunday = datetime(2026, 2, 1, 21, 30, 10, tzinfo=UTC)
    result = promise(a_plan(available_from=sunday))
    assert (result.finish.isoformat(), result.schedule, result.chain) == ("2026-02-01T16:31:00-05:00", (), ())


def test_the_chain_tells_the_last_on_the_sheet_of_two_that_end_together():
    result = promise(a_plan(an_operation("A"), an_operation("B"), technicians=2))
    assert [link.code for link in result.chain] == ["B"]


def test_a_predecessor_with_a_wait_is_named_after_one_without():
    wait = an_operation("CURE", hours="1", wait_after=60)
    result = promise(
        a_plan(wait, an_operation("FIT", hours="2"), an_operation("END", after=("CURE", "FIT")), technicians=2)
    )
    assert [(link.because, link.of) for link in result.chain] == [("after", "FIT"), ("drop_off", None)]


def test_spans_may_touch_overlap_and_end_at_midnight():
    calendar = WorkCalendar(ZONES[3], (((0, 600), (600, 900), (800, 1440)),) * 7)
    assert OpeningHours(calendar).after_work(0, 3 * 1440) == 3 * 1440


def test_an_hour_the_clock_skips_is_not_worked_and_one_it_repeats_is_worked_twice():
    night = WorkCalendar(ZONES[0], (((60, 240),),) * 7)
    hours = OpeningHours(night)
    for day, worked in ((date(2026, 3, 8), 120), (date(2026, 11, 1), 240), (date(2026, 3, 9), 180)):
        begin = minute_of(datetime.combine(day, datetime.min.time(), ZONES[0]))
        first = hours.first_open(begin)
        assert instant_of(hours.after_work(first, worked), ZONES[0]).hour == 4
        assert instant_of(hours.after_work(first, worked + 1), ZONES[0]).date() == day + timedelta(days=1)


@pytest.mark.parametrize(
    ("change", "culprit"),
    [
        ({"efficiency": Decimal(0)}, "bad_efficiency: 0"),
        ({"efficiency": Decimal("NaN")}, "bad_efficiency: NaN"),
        ({"calendar": WorkCalendar(ZONES[0], (((480, 480),),) + ((),) * 6)}, "never_open: America/Toronto"),
        ({"operations": (an_operation("A", "-1"),)}, "negative_hours: A: -1"),
    ],
)
def test_a_plan_without_an_answer_is_refused_and_the_culprit_named(change, culprit):
    with pytest.raises(CalculationError) as refusal:
        promise(a_plan(**change))
    assert str(refusal.value) == culprit
