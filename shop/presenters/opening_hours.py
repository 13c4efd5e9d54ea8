"""Opening hours and closed days as an answer."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, timedelta
from typing import cast

from shop.answers.opening_hours import (
    ClosedDayOut,
    HoursVersionOut,
    OpenDayOut,
    OpeningHoursOut,
    OpenSpanOut,
    WeekDay,
)
from shop.answers.rule_sets import RuleSetState
from shop.models import Calendar, ClosedDay
from shop.queries.calendar import WEEK, in_force
from shop.words import say
from shop.words.figures import listed, weekday

Week = Mapping[str, Sequence[Sequence[str]]]
"""{day of the week: [[opens, closes], ...]}"""

MONDAY = date(2026, 1, 5)  # any Monday: only the names of the days are used


def opening_hours_answer(rows: Sequence[Calendar], closed: Iterable[ClosedDay], today: date) -> OpeningHoursOut:
    """The answer of all hours of a shop, the earliest first."""
    current = in_force(rows, today)
    week = current.week if current else {}
    befores = [{}, *(row.week for row in rows)]
    return OpeningHoursOut(
        recorded=bool(week),
        week=_days(week),
        versions=[
            HoursVersionOut(
                id=row.pk,
                valid_from=row.valid_from,
                state=_state(row, current, today),
                week=_days(row.week),
                changes=list(_changes(before, row.week)) if before else [],
            )
            for before, row in reversed(list(zip(befores, rows, strict=False)))
        ],
        closed_days=[ClosedDayOut(id=row.pk, date=row.date, reason=row.reason) for row in closed],
    )


def _state(row: Calendar, current: Calendar | None, today: date) -> RuleSetState:
    if current is not None and row.pk == current.pk:
        return "in_force"
    return "later" if row.valid_from > today else "replaced"


def _days(week: Week) -> list[OpenDayOut]:
    return [
        OpenDayOut(
            day=cast(WeekDay, day),
            spans=[OpenSpanOut(opens=opens, closes=closes) for opens, closes in week.get(day, [])],
        )
        for day in WEEK
    ]


def _changes(before: Week, after: Week) -> Iterator[str]:
    """'Fri: 08:00 to 16:00, before 08:00 to 17:30', for each day that differs."""
    for at, day in enumerate(WEEK):
        old, new = before.get(day, []), after.get(day, [])
        if old != new:
            name = weekday(MONDAY + timedelta(days=at))
            yield say("hours.change", day=name, before=_spans(old), after=_spans(new))


def _spans(spans: Sequence[Sequence[str]]) -> str:
    if not spans:
        return say("hours.closed")
    return listed([say("promise.how.to", since=opens, until=closes) for opens, closes in spans])
