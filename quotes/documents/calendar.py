"""The days of jobs as an iCalendar file. The library escapes and folds its lines."""

from collections.abc import Iterable
from datetime import timedelta

from icalendar import Calendar, Event

from quotes.queries.calendar import JobDay
from shop.models import Shop
from shop.words import say


def calendar_file(shop: Shop, days: Iterable[JobDay]) -> bytes:
    """The file. It holds vehicles and quote numbers, and neither a price nor a customer."""
    calendar = Calendar()
    calendar.add("prodid", "-//Kitwright//EN")
    calendar.add("version", "2.0")
    calendar.add("x-wr-calname", say("calendar.title", house=shop.name))
    calendar.add("x-wr-timezone", shop.zone)
    for day in days:
        calendar.add_component(_event(day))
    return bytes(calendar.to_ical())


def _event(day: JobDay) -> Event:
    """A whole day in the shop's zone, which leaves the reader's own time free."""
    event = Event()
    event.add("uid", f"{day.job}-{day.kind}@kitwright")
    event.add("dtstamp", day.since)
    event.add("dtstart", day.day)
    event.add("dtend", day.day + timedelta(days=1))
    event.add("summary", say(f"calendar.{day.kind}", vehicle=day.vehicle, number=day.number))
    if day.half:
        event.add("description", say(f"calendar.half_{day.half}"))
    event.add("transp", "TRANSPARENT")
    return event
