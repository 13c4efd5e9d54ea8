"""Noon, in the shop's own zone."""

from datetime import UTC, datetime

import pytest

from shop.calc.days import half_day
from shop.calc.visit import ExpectedDelivery
from shop.calc.worktime import WorkCalendar
from tests.calc.test_visit import STRIP, ZONE, ahead, at

THROUGH = WorkCalendar(ZONE, (((8 * 60, 17 * 60),),) * 7)


@pytest.mark.parametrize(
    ("hour", "minute", "half"),
    [(11, 59, "morning"), (12, 0, "afternoon"), (12, 30, "afternoon")],
)
def test_the_afternoon_begins_at_noon_where_the_shop_is(hour: int, minute: int, half: str) -> None:
    finish = at(1, hour, minute)
    assert half_day(finish, THROUGH).half == half_day(finish.astimezone(UTC), THROUGH).half == half


@pytest.mark.parametrize("turned", [False, True])
def test_the_hour_that_the_clock_shows_twice_is_later_the_second_time(turned: bool) -> None:
    once = ExpectedDelivery("once", "STRIP", datetime(2027, 10, 31, 2, 30, tzinfo=ZONE))
    again = ExpectedDelivery("again", "STRIP", datetime(2027, 10, 31, 2, 10, tzinfo=ZONE, fold=1))
    legs = ahead(STRIP, coming=(again, once) if turned else (once, again)).legs
    assert [leg.title for leg in legs if leg.kind == "arrival"] == ["again"]
