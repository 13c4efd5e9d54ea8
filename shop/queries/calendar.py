"""Reads the shop's opening hours for the calculations."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from datetime import date, datetime, timedelta
from typing import Any
from uuid import UUID
from zoneinfo import ZoneInfo

from django.db.models import QuerySet

from shop.calc.worktime import Span, Week, WorkCalendar
from shop.compiled import compiled
from shop.models import Calendar as CalendarRow
from shop.models import ClosedDay, Shop

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def opening_hours(shop: Shop, since: date) -> WorkCalendar | None:
    """The shop's opening hours from `since` on, in two queries; None if there are none, and then no promise."""
    return calendar_from(shop, weeks_of(shop), since)


def calendar_from(shop: Shop, rows: Sequence[CalendarRow], since: date) -> WorkCalendar | None:
    """These hours, the earliest first, as a calendar from `since` on without the shop's closed days."""
    first = in_force(rows, since)
    if first is None:
        return None
    later = tuple((row.valid_from, _week(row)) for row in rows if row.valid_from > max(since, first.valid_from))
    calendar = WorkCalendar(ZoneInfo(shop.zone), _week(first), later=later)
    if not calendar.opens:
        return None
    return replace(calendar, closed=frozenset(_closed(shop.pk, since)))


def days_closed(shop: Shop, since: date) -> QuerySet[ClosedDay]:
    """The days from `since` on that the shop is closed, the next one first."""
    return ClosedDay.objects.filter(shop=shop, date__gte=since).order_by("date")


@compiled
def _closed(shop: UUID, since: date) -> QuerySet[ClosedDay, date]:
    return ClosedDay.objects.filter(shop=shop, date__gte=since).values_list("date", flat=True)


def weeks_of(shop: Shop) -> list[CalendarRow]:
    """All opening hours of the shop, the earliest first."""
    return _weeks(shop.pk)


@compiled
def _weeks(shop: UUID) -> QuerySet[CalendarRow]:
    return CalendarRow.objects.filter(shop=shop).order_by("valid_from")


def in_force(rows: Iterable[CalendarRow], day: date) -> CalendarRow | None:
    """The hours that apply on a day, of rows with the earliest first; the first ones apply to all days before too."""
    first: CalendarRow | None = None
    for row in rows:
        if first is None or row.valid_from <= day:
            first = row
    return first


def _week(row: CalendarRow) -> Week:
    return tuple(_spans(row.week.get(day, [])) for day in WEEK)


def _spans(spans: Any) -> tuple[Span, ...]:
    return tuple((_minute(begin), _minute(end)) for begin, end in spans)


def _minute(clock: str) -> int:
    hour, minute = clock.split(":")
    return int(hour) * 60 + int(minute)


def shop_day(shop: Shop, now: datetime) -> date:
    """The day in the shop's zone."""
    return now.astimezone(ZoneInfo(shop.zone)).date()


def day_ends(shop: Shop, day: date) -> datetime:
    """The moment at which a day ends in the shop's zone."""
    return datetime.combine(day + timedelta(days=1), datetime.min.time(), ZoneInfo(shop.zone))
