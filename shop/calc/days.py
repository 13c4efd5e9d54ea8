"""Days as a workshop speaks of them: when a delivery is available, and on which half day a vehicle is ready."""

from dataclasses import dataclass
from datetime import date, datetime, timedelta
from typing import Literal

from shop.calc.worktime import OpeningHours, WorkCalendar, instant_of, minute_of

Half = Literal["morning", "afternoon"]
NOON = 12
QUARTER = 15


@dataclass(frozen=True, slots=True)
class HalfDay:
    """A half day. `at` is the open minute from which the vehicle can be collected; customers see only the half day."""

    day: date
    half: Half
    at: datetime

    @property
    def order(self) -> tuple[date, bool]:
        """The sort key: an earlier half day comes first."""
        return self.day, self.half == "afternoon"


def quarter_of(now: datetime) -> datetime:
    """The start of the quarter of an hour that contains `now`.

    Promises are worked out for this moment, so that reading one again shortly afterwards gives the same result.
    """
    return now.replace(minute=now.minute // QUARTER * QUARTER, second=0, microsecond=0)


def on_the_shelf(day: date, calendar: WorkCalendar) -> datetime:
    """The closing time of the first open day on or after `day`: from then on a delivery due on `day` is available.

    The carrier's hour is not known, so work that needs the delivery is not planned earlier. Refuses `never_open`.
    """
    hours = OpeningHours(calendar)
    while not (spans := hours.open_on(day)):
        day += timedelta(days=1)
    return instant_of(spans[-1][1], calendar.zone)


def opening(day: date, calendar: WorkCalendar) -> datetime:
    """The first open minute on or after `day`. Refuses `never_open`."""
    return instant_of(OpeningHours(calendar).opening(day), calendar.zone)


def here_from(day: date | None, calendar: WorkCalendar, now: datetime) -> datetime:
    """The first moment at which the vehicle can be worked on: opening time on its day, and never before `now`."""
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
