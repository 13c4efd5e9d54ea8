"""Section 10, `promise`."""

from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from shop.calc.promise import Plan, PlannedOperation, Promise, promise
from shop.calc.worktime import Span, WorkCalendar
from shop.vectors.reading import VectorError, many, mapping, number, text, texts, whole

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def promise_case(given: dict[str, Any]) -> dict[str, Any]:
    made = promise(
        Plan(
            calendar=calendar(mapping(given, "calendar")),
            available_from=datetime.fromisoformat(text(given, "available_from")),
            operations=tuple(operation(each) for each in many(given, "operations")),
            technicians=whole(given, "technicians", "1"),
            efficiency=number(given, "efficiency", "1"),
        )
    )
    return promised(made)


def promised(made: Promise) -> dict[str, Any]:
    return {
        "finish": made.finish.isoformat(),
        "schedule": [
            {"code": booked.code, "start": booked.start.isoformat(), "end": booked.end.isoformat()}
            for booked in made.schedule
        ],
        "chain": [{"code": link.code, "because": link.because, "of": link.of} for link in made.chain],
    }


def calendar(given: dict[str, Any]) -> WorkCalendar:
    week = mapping(given, "week")
    closed = frozenset(date.fromisoformat(day) for day in texts(given, "closed"))
    return WorkCalendar(ZoneInfo(text(given, "zone")), tuple(_spans(many(week, day)) for day in WEEK), closed)


def _spans(spans: list[Any]) -> tuple[Span, ...]:
    return tuple((_minute(begin), _minute(end)) for begin, end in spans)


def _minute(clock: str) -> int:
    hour, _, minute = clock.partition(":")
    if not (hour.isdecimal() and minute.isdecimal() and int(hour) * 60 + int(minute) <= 1440):
        raise VectorError(f"not a time of day: {clock!r}")
    return int(hour) * 60 + int(minute)


def operation(given: dict[str, Any]) -> PlannedOperation:
    arrival = given.get("not_before")
    return PlannedOperation(
        code=text(given, "code"),
        hours=number(given, "hours"),
        after=texts(given, "after"),
        wait_after=whole(given, "wait_after", "0"),
        not_before=None if arrival is None else datetime.fromisoformat(arrival),
        wait_days=whole(given, "wait_days", "0"),
    )
