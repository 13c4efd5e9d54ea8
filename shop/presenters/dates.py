"""Days and times in words, in the shop's zone."""

from datetime import date, datetime
from zoneinfo import ZoneInfo

from shop.calc.days import HalfDay, on_the_shelf
from shop.calc.worktime import WorkCalendar
from shop.words import figures, say


def day_words(day: date) -> str:
    """'Tue 8 Dec 2026'."""
    return figures.day_with_year(day)


def short_day(day: date, today: date | None = None) -> str:
    """'Tue 8 Dec'; with its year if that is not the year of `today`."""
    if _of_another_year(day, today):
        return day_words(day)
    return figures.day(day)


def date_only(day: date, today: date | None = None) -> str:
    """'8 Dec', without a weekday; '8 Jan 2027' if that is not the year of `today`."""
    if _of_another_year(day, today):
        return figures.day_of_year(day)
    return figures.day_of_month(day)


def instant_words(instant: datetime, zone: str) -> str:
    """'Thu 26 Nov 2026, 18:42' in the shop's zone."""
    local = instant.astimezone(ZoneInfo(zone))
    return say("day.at", day=day_words(local.date()), time=local.strftime("%H:%M"))


def due_words(instant: datetime, zone: str, today: date | None = None) -> str:
    """'Tue 8 Dec 10:00' in the shop's zone; with its year if that is not the year of `today`."""
    local = instant.astimezone(ZoneInfo(zone))
    return say("day.due", day=short_day(local.date(), today), time=local.strftime("%H:%M"))


def shelf_words(at: datetime, calendar: WorkCalendar | None, zone: str, today: date | None = None) -> str:
    """'Tue 8 Dec 10:00'; the day alone for closing time, which stands for an unknown hour."""
    if calendar is not None:
        day = at.astimezone(calendar.zone).date()
        if on_the_shelf(day, calendar) == at:
            return short_day(day, today)
    return due_words(at, zone, today)


def half_day_words(half_day: HalfDay, today: date | None = None) -> str:
    """'Thu 10 Dec, in the afternoon'; with its year where that is not the year of `today`."""
    return say(f"day.{half_day.half}", day=short_day(half_day.day, today))


def half_day_brief(half_day: HalfDay, today: date | None = None) -> str:
    """'Thu 10 Dec, afternoon', for a headline; with its year where that is not the year of `today`."""
    return say(f"day.short_{half_day.half}", day=short_day(half_day.day, today))


def _of_another_year(day: date, today: date | None) -> bool:
    return today is not None and day.year != today.year
