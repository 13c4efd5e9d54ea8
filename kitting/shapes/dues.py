"""When something comes, as people read it."""

from datetime import datetime

from shop.calc.days import on_the_shelf
from shop.calc.worktime import Calendar
from shop.dates import due_words, short_day


def shelf_words(at: datetime, calendar: Calendar | None, zone: str) -> str:
    """'Tue 8 Dec 10:00'; the day alone where it means the moment the shop closes, for nobody said the hour."""
    if calendar is not None:
        day = at.astimezone(calendar.zone).date()
        if on_the_shelf(day, calendar) == at:
            return short_day(day)
    return due_words(at, zone)
