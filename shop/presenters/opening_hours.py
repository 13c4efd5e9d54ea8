"""Opening hours and closed days as an answer."""

from collections.abc import Iterable
from typing import cast

from shop.answers.opening_hours import ClosedDayOut, OpenDayOut, OpeningHoursOut, OpenSpanOut, WeekDay
from shop.models import Calendar, ClosedDay
from shop.queries.calendar import WEEK


def opening_hours_answer(calendar: Calendar | None, closed: Iterable[ClosedDay]) -> OpeningHoursOut:
    week = calendar.week if calendar else {}
    return OpeningHoursOut(
        recorded=bool(week),
        week=[
            OpenDayOut(
                day=cast(WeekDay, day),
                spans=[OpenSpanOut(opens=opens, closes=closes) for opens, closes in week.get(day, [])],
            )
            for day in WEEK
        ],
        closed_days=[ClosedDayOut(id=row.pk, date=row.date, reason=row.reason) for row in closed],
    )
