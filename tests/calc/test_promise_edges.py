"""Minutes that a float would round up wrongly, and ties of what was waited for."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal as D
from zoneinfo import ZoneInfo

import pytest

from shop.calc.errors import CalculationError
from shop.calc.promise import ChainLink, Plan, PlannedOperation, clock_minutes, promise
from shop.calc.worktime import OpeningHours, WorkCalendar, minute_of

UTC_ZONE = ZoneInfo("UTC")
ALWAYS = WorkCalendar(UTC_ZONE, (((0, 1440),),) * 7)
NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("hours", "efficiency", "minutes"),
    [("1.4", "1.4", 60), ("0.7", "1.4", 30), ("8.3", "1", 498), ("8.3", "1.2", 415), ("0.1", "7", 1)],
)
def test_a_minute_begun_is_a_minute_and_a_whole_one_is_not_begun(hours: str, efficiency: str, minutes: int) -> None:
    assert clock_minutes(D(hours), D(efficiency)) == minutes


def test_what_came_before_the_vehicle_was_not_waited_for() -> None:
    early = PlannedOperation("FIT", D(1), not_before=NOON - timedelta(hours=1))
    assert promise(Plan(ALWAYS, NOON, (early,))).chain == (ChainLink("FIT", "drop_off", None),)


def test_of_two_that_are_free_the_first_technician_begins() -> None:
    operations = tuple(PlannedOperation(code, D(1)) for code in ("WIRE", "BLEED", "TEST"))
    result = promise(Plan(ALWAYS, NOON, operations, technicians=2))
    assert result.chain == (ChainLink("TEST", "technician", "WIRE"), ChainLink("WIRE", "drop_off", None))


WEEKDAYS = WorkCalendar(ZoneInfo("Europe/Berlin"), (((8 * 60, 17 * 60),),) * 5 + ((), ()))


@pytest.mark.parametrize(
    "operations",
    [
        (PlannedOperation("FIT", D(90_000_000)),),
        (PlannedOperation("FIT", D(1), wait_after=2_000_000_000),),
        (PlannedOperation("CURE", D(1), wait_after=2_000_000_000), PlannedOperation("FIT", D(1), ("CURE",))),
        tuple(PlannedOperation(f"{n}", D(40_000)) for n in range(3)),  # each within the horizon, not all
    ],
)
def test_what_lies_behind_the_horizon_is_refused(operations: tuple[PlannedOperation, ...]) -> None:
    with pytest.raises(CalculationError, match="too_far: 20"):
        promise(Plan(WEEKDAYS, NOON, operations))


def test_a_shop_that_stays_closed_is_not_waited_for() -> None:
    closed = frozenset(NOON.date() + timedelta(days=n) for n in range(22 * 366))
    with pytest.raises(CalculationError, match="too_far: 20"):
        OpeningHours(WorkCalendar(UTC_ZONE, ALWAYS.week, closed)).first_open(minute_of(NOON))


def test_work_is_done_in_the_hours_of_each_day() -> None:
    [monday, friday] = [NOON.date() + timedelta(days=days) for days in (7, 11)]
    half, late = [(((begin * 60, end * 60),),) * 5 + ((), ()) for begin, end in ((8, 12), (10, 18))]
    calendar = WorkCalendar(UTC_ZONE, (((8 * 60, 16 * 60),),) * 5 + ((), ()), later=((monday, half), (friday, late)))
    begins = datetime(2026, 11, 6, 12, tzinfo=UTC)  # the Friday before
    week = promise(Plan(calendar, begins, (PlannedOperation("FIT", D(4 + 4 * 4)), PlannedOperation("ROAD", D(8)))))
    assert [booking.end.isoformat() for booking in week.schedule] == [
        "2026-11-12T12:00:00+00:00",
        "2026-11-13T18:00:00+00:00",
    ]


def test_a_shop_whose_last_hours_never_open_is_refused() -> None:
    calendar = WorkCalendar(UTC_ZONE, ALWAYS.week, later=((NOON.date() + timedelta(days=9), ((),) * 7),))
    with pytest.raises(CalculationError, match="never_open"):
        OpeningHours(calendar)


def test_what_lies_before_the_horizon_is_counted() -> None:
    result = promise(Plan(ALWAYS, NOON, (PlannedOperation("FIT", D(20 * 365 * 24)),)))
    assert result.finish == NOON + timedelta(days=20 * 365)


def test_more_people_than_operations_change_nothing() -> None:
    operations = tuple(PlannedOperation(code, D(1)) for code in ("WIRE", "BLEED"))
    crowd = promise(Plan(ALWAYS, NOON, operations, technicians=10**12))
    assert crowd == promise(Plan(ALWAYS, NOON, operations, technicians=2))
    assert promise(Plan(ALWAYS, NOON, (), technicians=10**12)).finish == NOON
