"""A day without a year is in the current year; any other day is written with its year."""

from datetime import UTC, date, datetime

import pytest

from shop.calc.days import HalfDay
from shop.presenters.dates import date_only, due_words, half_day_words, short_day

TODAY = date(2026, 12, 15)
NOON = datetime(2027, 1, 12, 11, tzinfo=UTC)


def test_a_day_of_this_year_needs_no_year():
    assert short_day(date(2026, 12, 31), TODAY) == "Thu 31 Dec"
    assert date_only(date(2026, 1, 1), TODAY) == "1 Jan"
    assert half_day_words(HalfDay(date(2026, 12, 17), "afternoon", NOON), TODAY) == "Thu 17 Dec, in the afternoon"


@pytest.mark.parametrize(
    ("day", "words"), [(date(2027, 1, 1), "Fri 1 Jan 2027"), (date(2025, 12, 31), "Wed 31 Dec 2025")]
)
def test_a_day_of_another_year_has_its_year(day, words):
    assert short_day(day, TODAY) == words
    assert date_only(day, TODAY) == words.partition(" ")[2]
    assert half_day_words(HalfDay(day, "morning", NOON), TODAY) == f"{words}, in the morning"


def test_an_hour_of_another_year_has_its_year_by_the_clock_of_the_shop():
    eve = datetime(2026, 12, 31, 23, 30, tzinfo=UTC)  # half past midnight in Berlin
    assert due_words(NOON, "Europe/Berlin", TODAY) == "Tue 12 Jan 2027 12:00"
    assert due_words(eve, "Europe/Berlin", TODAY) == "Fri 1 Jan 2027 00:30"
    assert due_words(eve, "Europe/London", TODAY) == "Thu 31 Dec 23:30"


def test_without_a_today_the_year_goes_without_saying():
    assert short_day(date(2031, 5, 2)) == "Fri 2 May"
