"""Noon, in the shop's own zone."""

from datetime import UTC

import pytest

from shop.calc.days import half_day
from shop.calc.worktime import Calendar
from tests.calc.test_outlook import ZONE, at

THROUGH = Calendar(ZONE, (((8 * 60, 17 * 60),),) * 7)


@pytest.mark.parametrize(
    ("hour", "minute", "half"),
    [(11, 59, "morning"), (12, 0, "afternoon"), (12, 30, "afternoon")],
)
def test_the_afternoon_begins_at_noon_where_the_shop_is(hour: int, minute: int, half: str) -> None:
    finish = at(1, hour, minute)
    assert half_day(finish, THROUGH).half == half_day(finish.astimezone(UTC), THROUGH).half == half
