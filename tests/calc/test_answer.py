"""The customer's form: the price that it names, and the half day that it shows."""

from datetime import date, timedelta
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.answer import HALVES, contradicts, half_day_of, half_day_value, moved_later, place_of

DAYS = st.dates(date(2026, 1, 1), date(2030, 12, 31))
HALF = st.sampled_from(HALVES)


def promise(day: date, half: str) -> dict[str, Any]:
    return {"ready": {"day": day.isoformat(), "half": half}}


@given(DAYS, HALF)
def test_the_form_carries_the_half_day_there_and_back(day: date, half: str) -> None:
    assert half_day_of(half_day_value(promise(day, half))) == (day, ("morning", "afternoon").index(half))


@given(DAYS, HALF, st.integers(-3, 3), HALF)
def test_only_a_later_half_day_is_asked_about_again(day: date, half: str, moved: int, now: str) -> None:
    form_value = f"{day.isoformat()} {half}"
    later = moved > 0 or (moved == 0 and half == "morning" and now == "afternoon")
    assert moved_later(form_value, promise(day + timedelta(days=moved), now)) == later


def test_a_date_that_is_gone_has_moved_and_one_that_was_not_shown_has_not() -> None:
    assert moved_later("2026-12-10 morning", None)
    assert not moved_later("", promise(date(2026, 12, 10), "morning"))
    assert not moved_later("2026-12-10 midnight", None)


@pytest.mark.parametrize(
    ("price", "place"), [("0", 0), ("1", 1), ("2", None), ("", None), ("unknown", None), ("-1", None), ("000", None)]
)
def test_a_price_is_named_by_its_place_among_those_of_the_text(price: str, place: int | None) -> None:
    assert place_of({"possible": [{}, {}]}, price) == place


def test_a_text_with_one_price_has_none_to_name() -> None:
    assert place_of({}, "0") is None


@pytest.mark.parametrize(
    ("recorded", "wrong"),
    [({}, False), ({"gearbox": ""}, False), ({"gearbox": "manual"}, False), ({"gearbox": "automatic"}, True)],
)
def test_another_value_on_record_contradicts_the_customer(recorded: dict[str, str], wrong: bool) -> None:
    assert contradicts([["gearbox", "manual"]], recorded) == wrong
