"""Reads the shop's opening hours for the calculations."""

from datetime import date, datetime, timedelta
from typing import Any
from zoneinfo import ZoneInfo

from shop.calc.worktime import Span, WorkCalendar
from shop.models import Calendar as CalendarRow
from shop.models import ClosedDay, Shop

WEEK = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")


def opening_hours(shop: Shop, since: date) -> WorkCalendar | None:
    """The shop's opening hours from `since` on, in two queries; None if there are none, and then no promise."""
    row = CalendarRow.objects.filter(shop=shop).order_by("shop_id").first()  # by its unique index
    if row is None:
        return None
    week = tuple(_spans(row.week.get(day, [])) for day in WEEK)
    if not any(begin < end for spans in week for begin, end in spans):
        return None
    closed = ClosedDay.objects.filter(shop=shop, date__gte=since).values_list("date", flat=True)
    return WorkCalendar(ZoneInfo(shop.zone), week, frozenset(closed))


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
