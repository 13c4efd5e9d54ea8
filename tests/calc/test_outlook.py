"""The best day for the vehicle to come: a short second implementation of the rule, and its consequences."""

from collections.abc import Sequence
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from decimal import Decimal
from zoneinfo import ZoneInfo

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from shop.calc.errors import CalculationError
from shop.calc.outlook import Outlook, OutlookInput, OutlookOperation, outlook
from shop.calc.promise import Plan, Planner, Promise, Schedule, promise
from shop.calc.worktime import OpeningHours, WorkCalendar, instant_of, minute_of
from tests.examples import many

ZONE = ZoneInfo("America/Toronto")
WEEK = (((480, 720), (780, 1020)),) * 5 + ((), ())
WEEKDAYS = WorkCalendar(ZONE, WEEK, frozenset({date(2026, 3, 10)}))
FRIDAY = datetime(2026, 3, 6, 8, tzinfo=ZONE)  # the clocks go forward on the Sunday after it


@st.composite
def operations(draw: st.DrawFn) -> tuple[OutlookOperation, ...]:
    sheet = []
    for at in range(draw(st.integers(1, 7))):
        before = st.lists(st.sampled_from([f"O{earlier}" for earlier in range(at)]), max_size=2, unique=True)
        sheet.append(
            OutlookOperation(
                code=f"O{at}",
                hours=Decimal(draw(st.sampled_from(["0", "0.5", "1", "2.5", "4", "7"]))),
                after=tuple(draw(before)) if at else (),
                wait_after=draw(st.sampled_from([0, 0, 0, 90, 1440])),
                not_before=draw(st.none() | st.integers(0, 200).map(lambda hour: FRIDAY + timedelta(hours=hour))),
                wait_days=draw(st.sampled_from([0, 0, 0, 0, 1])),
                no_return=draw(st.sampled_from([False, False, True])),
                mobile_again=draw(st.sampled_from([False, False, True])),
            )
        )
    return tuple(draw(st.permutations(sheet)))


enquiries = st.builds(
    OutlookInput,
    calendar=st.just(WEEKDAYS),
    now=st.integers(-600, 4000).map(lambda minute: FRIDAY + timedelta(minutes=minute, seconds=30)),
    operations=operations(),
    technicians=st.sampled_from([1, 2]),
    efficiency=st.sampled_from([Decimal(1), Decimal("1.15")]),
    here_from=st.none() | st.integers(-2, 9).map(lambda days: FRIDAY.date() + timedelta(days=days)),
)


def walked(sheet: Sequence[OutlookOperation]) -> list[OutlookOperation]:
    order: list[OutlookOperation] = []
    while len(order) < len(sheet):
        done = {operation.code for operation in order}
        order.append(
            next(operation for operation in sheet if operation.code not in done and done.issuperset(operation.after))
        )
    return order


def needed_for(codes: set[str], sheet: Sequence[OutlookOperation]) -> set[str]:
    while True:
        more = codes | {code for operation in sheet if operation.code in codes for code in operation.after}
        if more == codes:
            return codes
        codes = more


def planned(enquiry: OutlookInput, since: datetime) -> Promise:
    """The plan from one start by the document's rules, without any optimisation."""
    sheet = enquiry.operations
    plan = Plan(enquiry.calendar, since, sheet, enquiry.technicians, enquiry.efficiency)
    at_once = promise(replace(plan, operations=tuple(replace(member, not_before=None) for member in sheet)))
    starts = {member.code: minute_of(member.start) for member in at_once.schedule}
    order, waits = walked(sheet), {member.code: member.not_before for member in sheet}
    for at, operation in enumerate(order):
        if operation.no_return:
            window = set[str]()
            for member in order[at:]:
                window.add(member.code)
                if member.mobile_again:
                    break
            late = [
                member.not_before
                for member in sheet
                if member.code in needed_for(window, sheet)
                and member.not_before is not None
                and (member is operation or minute_of(member.not_before) > starts[member.code])
            ]
            waits[operation.code] = max(late, key=minute_of, default=None)
    return promise(replace(plan, operations=tuple(replace(member, not_before=waits[member.code]) for member in sheet)))


def half_day(finish: datetime, calendar: WorkCalendar) -> tuple[date, bool]:
    ready = instant_of(OpeningHours(calendar).first_open(minute_of(finish)), calendar.zone)
    return ready.date(), ready.hour >= 12


def drop_offs(enquiry: OutlookInput) -> list[datetime]:
    hours, zone = OpeningHours(enquiry.calendar), enquiry.calendar.zone
    begun = instant_of(minute_of(enquiry.now), zone)
    if enquiry.here_from and enquiry.here_from > begun.date():
        midnight = datetime.combine(enquiry.here_from, datetime.min.time(), zone)
        begun = instant_of(hours.first_open(minute_of(midnight)), zone)
    last, _ = half_day(planned(enquiry, begun).finish, enquiry.calendar)
    days = [begun.date() + timedelta(days=n) for n in range(1, (last - begun.date()).days + 1)]
    return [begun, *(instant_of(hours.open_on(day)[0][0], zone) for day in days if hours.open_on(day))]


@settings(max_examples=many(150))
@given(enquiries)
def test_it_is_the_best_of_all_drop_offs_each_planned_from_nothing(enquiry: OutlookInput) -> None:
    result, zone = outlook(enquiry), enquiry.calendar.zone
    plans = {since: planned(enquiry, since) for since in drop_offs(enquiry)}
    halves = {since: half_day(plan_result.finish, enquiry.calendar) for since, plan_result in plans.items()}
    best = [since for since in plans if halves[since] == min(halves.values())]
    chosen = best[0] if enquiry.here_from else best[-1]
    comes = next(iter(plans)) if enquiry.here_from else chosen
    assert result.promise == plans[chosen]
    assert (result.ready.day, result.ready.half == "afternoon") == halves[chosen]
    first_open = OpeningHours(enquiry.calendar).first_open(minute_of(comes))
    assert (result.since, result.bring) == (chosen, instant_of(first_open, zone))
    assert [(candidate.since, candidate.ready.order) for candidate in result.tried] == list(halves.items())


@settings(max_examples=many(60))
@given(enquiries)
def test_no_drop_off_is_proposed_where_a_later_one_is_ready_sooner(enquiry: OutlookInput) -> None:
    result = outlook(replace(enquiry, here_from=None))
    day = result.since.date()
    while day < result.ready.day:
        day += timedelta(days=1)
        later = outlook(replace(enquiry, here_from=day))
        assert later.ready.order > result.ready.order or later.ready.day < day


@settings(max_examples=many(60))
@given(enquiries, st.randoms(use_true_random=False))
def test_the_names_of_the_operations_decide_nothing(enquiry: OutlookInput, chance: object) -> None:
    names = [f"N{at}" for at in range(len(enquiry.operations))]
    chance.shuffle(names)  # type: ignore[attr-defined]
    new = dict(zip((operation.code for operation in enquiry.operations), names, strict=True))
    sheet = tuple(
        replace(operation, code=new[operation.code], after=tuple(new[code] for code in operation.after))
        for operation in enquiry.operations
    )
    operation, two = outlook(enquiry), outlook(replace(enquiry, operations=sheet))
    assert (operation.bring, operation.ready, operation.promise.finish) == (two.bring, two.ready, two.promise.finish)
    assert [(new[booking.code], booking.start) for booking in operation.promise.schedule] == [
        (booking.code, booking.start) for booking in two.promise.schedule
    ]


@settings(max_examples=many(60))
@given(enquiries, st.integers(0, 59))
def test_seconds_and_the_zone_of_whoever_asks_decide_nothing(enquiry: OutlookInput, seconds: int) -> None:
    exact = enquiry.now.replace(second=0) + timedelta(minutes=1)
    moment = (exact - timedelta(seconds=seconds)).astimezone(UTC)
    assert outlook(replace(enquiry, now=moment)) == outlook(replace(enquiry, now=exact))


def step(code: str, hours: str, *after: str, **more: object) -> OutlookOperation:
    return replace(OutlookOperation(code, Decimal(hours), after), **more)


def outlook_of(*sheet: OutlookOperation, **more: object) -> Outlook:
    return outlook(replace(OutlookInput(WEEKDAYS, FRIDAY, sheet), **more))


def test_what_comes_in_eleven_days_does_not_keep_the_vehicle_in_the_bay_until_then() -> None:
    """Of three kits one arrives in eleven days: two days of other work come first, then the front comes off."""
    comes = datetime(2026, 3, 17, 17, tzinfo=ZONE)
    sheet = (
        step("RECEIVE", "1"),
        step("BRAKES", "5", "RECEIVE"),
        step("TOWBAR", "8", "RECEIVE"),
        step("FRONT", "2", "RECEIVE", no_return=True),
        step("TURBO", "8", "FRONT", not_before=comes),
        step("SHUT", "2", "TURBO", mobile_again=True),
    )
    result = outlook_of(*sheet)
    assert (result.bring.isoformat(), result.waits_for) == ("2026-03-16T08:00:00-04:00", {})
    assert (result.ready.day.isoformat(), result.ready.half) == ("2026-03-19", "morning")
    here = outlook_of(*sheet, here_from=FRIDAY.date())
    assert (here.bring, here.since, here.ready) == (FRIDAY, result.since, result.ready)


@pytest.mark.parametrize("no_return", [False, True])
def test_a_part_that_comes_in_ten_years_is_planned_a_few_times_and_not_from_every_day(
    no_return: bool, monkeypatch: pytest.MonkeyPatch
) -> None:
    comes, planned_from = datetime(2036, 3, 6, 17, tzinfo=ZONE), []
    sheet = (step("OFF", "5", no_return=no_return), step("FIT", "8", "OFF", not_before=comes), step("ROAD", "1", "FIT"))

    class Counted(Schedule):
        def __init__(self, planner: Planner, available_from: int, *arguments: object) -> None:
            planned_from.append(available_from)
            super().__init__(planner, available_from, *arguments)  # type: ignore[arg-type]

    monkeypatch.setattr("shop.calc.promise.Schedule", Counted)
    result = outlook_of(*sheet)
    assert result.ready.day == date(2036, 3, 10)
    assert len(result.tried) > 2500 and len(planned_from) < 20


def test_a_vehicle_that_stands_here_is_worked_on_first_thing() -> None:
    sheet = (step("FIT", "2"), step("TRIM", "1", "FIT", not_before=FRIDAY + timedelta(days=3, hours=3)))
    assert outlook_of(*sheet).bring == FRIDAY + timedelta(days=3)
    here = outlook_of(*sheet, here_from=FRIDAY.date())
    assert (here.bring, here.promise.schedule[0].start) == (FRIDAY, FRIDAY)


def test_without_operations_the_vehicle_is_ready_when_it_comes() -> None:
    night = FRIDAY.replace(hour=18)
    late = outlook_of(now=night)
    assert (late.promise.finish, len(late.tried)) == (night, 1)
    assert (late.ready.at, late.bring) == (FRIDAY + timedelta(days=3), FRIDAY + timedelta(days=3))


@pytest.mark.parametrize("more", [{"efficiency": Decimal(0)}, {"operations": (step("A", "-1"),)}])
def test_a_shop_that_never_opens_is_refused_before_all_else(more: dict[str, object]) -> None:
    with pytest.raises(CalculationError, match="never_open: America/Toronto"):
        outlook_of(**{"operations": (), "calendar": WorkCalendar(ZONE, ((),) * 7)} | more)  # type: ignore[arg-type]
