"""The calculation of promise (section 10)."""

from datetime import date, datetime
from typing import Any
from zoneinfo import ZoneInfo

from shop.calc.promise import Plan, PlannedOperation, Promise, promise
from shop.calc.worktime import Span, WorkCalendar
from shop.vectors.reading import VectorError, many, mapping, number, text, texts, whole

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def promise_case(case: dict[str, Any]) -> dict[str, Any]:
    result = promise(
        Plan(
            calendar=calendar(mapping(case, "calendar")),
            available_from=datetime.fromisoformat(text(case, "available_from")),
            operations=tuple(operation(entry) for entry in many(case, "operations")),
            technicians=whole(case, "technicians", "1"),
            efficiency=number(case, "efficiency", "1"),
        )
    )
    return promised(result)


def promised(result: Promise) -> dict[str, Any]:
    return {
        "finish": result.finish.isoformat(),
        "schedule": [
            {"code": booked.code, "start": booked.start.isoformat(), "end": booked.end.isoformat()}
            for booked in result.schedule
        ],
        "chain": [{"code": link.code, "because": link.because, "of": link.of} for link in result.chain],
    }


def calendar(case: dict[str, Any]) -> WorkCalendar:
    week = mapping(case, "week")
    closed = frozenset(date.fromisoformat(day) for day in texts(case, "closed"))
    return WorkCalendar(ZoneInfo(text(case, "zone")), tuple(_spans(many(week, day)) for day in WEEK), closed)


def _spans(spans: list[Any]) -> tuple[Span, ...]:
    return tuple((_minute(begin), _minute(end)) for begin, end in spans)


def _minute(clock: str) -> int:
    hour, _, minute = clock.partition(":")
    if not (hour.isdecimal() and minute.isdecimal() and int(hour) * 60 + int(minute) <= 1440):
        raise VectorError(f"not a time of day: {clock!r}")
    return int(hour) * 60 + int(minute)


def operation(case: dict[str, Any]) -> PlannedOperation:
    arrival = case.get("not_before")
    return PlannedOperation(
        code=text(case, "code"),
        hours=number(case, "hours"),
        after=texts(case, "after"),
        wait_after=whole(case, "wait_after", "0"),
        not_before=None if arrival is None else datetime.fromisoformat(arrival),
        wait_days=whole(case, "wait_days", "0"),
    )
