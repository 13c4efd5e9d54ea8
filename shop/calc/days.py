"""Days as a workshop speaks of them: when a delivery is on the shelf, on which half day a vehicle is ready."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from shop.calc.worktime import OpeningHours, WorkCalendar, instant_of, minute_of

Half = Literal["morning", "afternoon"]
NOON = 12
QUARTER = 15


@dataclass(frozen=True, slots=True)
class HalfDay:
    """`at` is the open minute from which the vehicle can be fetched; a customer hears the half day only."""

    day: date
    half: Half
    at: datetime

    @property
    def order(self) -> tuple[date, bool]:
        """The sort key: an earlier half day comes first."""
        return self.day, self.half == "afternoon"


def quarter_of(now: datetime) -> datetime:
    """The quarter of an hour that `now` is in. Promises are as of it, so that one read again soon is the same."""
    return now.replace(minute=now.minute // QUARTER * QUARTER, second=0, microsecond=0)


def on_the_shelf(day: date, calendar: WorkCalendar) -> datetime:
    """When a delivery of `day` can be counted on: as the shop closes on the first open day at or after it.

    The hour at which a carrier comes is not known, so the work that needs the delivery is not promised that day.
    Refuses `never_open`.
    """
    hours = OpeningHours(calendar)
    while not (spans := hours.open_on(day)):
        day += timedelta(days=1)
    return instant_of(spans[-1][1], calendar.zone)


def opening(day: date, calendar: WorkCalendar) -> datetime:
    """The first open minute on or after `day`. Refuses `never_open`."""
    return instant_of(OpeningHours(calendar).opening(day), calendar.zone)


def here_from(day: date | None, calendar: WorkCalendar, now: datetime) -> datetime:
    """From when the vehicle can be worked on: as the shop opens on the day it comes, never before `now`."""
    if day is None or day <= now.astimezone(calendar.zone).date():
        return now
    return opening(day, calendar)


def half_day(finish: datetime, calendar: WorkCalendar) -> HalfDay:
    """The half day of the first open minute at or after `finish`. Refuses `never_open`."""
    return half_day_after(minute_of(finish), OpeningHours(calendar))


def half_day_after(minute: int, hours: OpeningHours) -> HalfDay:
    """The half day of the first open minute at or after `minute`."""
    at = instant_of(hours.first_open(minute), hours.calendar.zone)
    return HalfDay(at.date(), "morning" if at.hour < NOON else "afternoon", at)
