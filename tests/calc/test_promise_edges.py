"""Minutes that a float would round up once too often, and who is told to have been waited for."""

from datetime import UTC, datetime, timedelta
from decimal import Decimal as D
from zoneinfo import ZoneInfo

import pytest

from shop.calc.promise import Link, Plan, PlannedOperation, clock_minutes, promise
from shop.calc.worktime import Calendar

ALWAYS = Calendar(ZoneInfo("UTC"), (((0, 1440),),) * 7)
NOON = datetime(2026, 11, 2, 12, tzinfo=UTC)


@pytest.mark.parametrize(
    ("hours", "efficiency", "minutes"),
    [("1.4", "1.4", 60), ("0.7", "1.4", 30), ("8.3", "1", 498), ("8.3", "1.2", 415), ("0.1", "7", 1)],
)
def test_a_minute_begun_is_a_minute_and_a_whole_one_is_not_begun(hours: str, efficiency: str, minutes: int) -> None:
    assert clock_minutes(D(hours), D(efficiency)) == minutes


def test_what_came_before_the_vehicle_was_not_waited_for() -> None:
    early = PlannedOperation("FIT", D(1), not_before=NOON - timedelta(hours=1))
    assert promise(Plan(ALWAYS, NOON, (early,))).chain == (Link("FIT", "drop_off", None),)


def test_of_two_that_are_free_the_first_technician_begins() -> None:
    operations = tuple(PlannedOperation(code, D(1)) for code in ("WIRE", "BLEED", "TEST"))
    found = promise(Plan(ALWAYS, NOON, operations, technicians=2))
    assert found.chain == (Link("TEST", "technician", "WIRE"), Link("WIRE", "drop_off", None))
