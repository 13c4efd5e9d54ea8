"""Opening hours and closed days."""

import re
from collections.abc import Iterable, Mapping
from datetime import date, timedelta
from typing import Any
from uuid import UUID

from django.db import transaction

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import Calendar, ClosedDay, Shop
from shop.queries.calendar import WEEK, in_force, weeks_of
from shop.services import history
from shop.services.clean import clean

CLOCK = re.compile(r"([01]?[0-9]|2[0-3])(?:[:.]([0-5][0-9]))?|24(?:[:.]00)?")
MOST_SPANS, MOST_DAYS = 4, 60
Hours = dict[str, list[list[str]]]
"""{day of the week: [[opens, closes], ...]}"""


@transaction.atomic
def set_week(
    *,
    actor: Actor,
    days: Iterable[Mapping[str, Any]],
    valid_from: date,
    today: date,
    seen: Iterable[Mapping[str, Any]] | None = None,
) -> None:
    """Sets the opening hours of the week from a day on; the days before keep theirs. Days without hours are closed.

    Refuses at /week/DAY a time that cannot be read, a closing before the opening, and hours that overlap, at
    /valid_from a day that is over, and `hours-changed-meanwhile` if that day no longer has the hours in `seen`.
    """
    _refuse_past(valid_from, today)
    current = in_force(_locked(actor), valid_from)
    if seen is not None and (current is None or current.week != _week(seen)):
        raise RequestError(409, "hours-changed-meanwhile")
    write_week(actor=actor, week=_week(days), valid_from=valid_from, verb="changed")


def proposed_weeks(*, shop: Shop, days: Iterable[Mapping[str, Any]], valid_from: date, today: date) -> list[Calendar]:
    """All hours of the shop as `set_week` would leave them, the earliest first. Writes nothing."""
    _refuse_past(valid_from, today)
    others = [row for row in weeks_of(shop) if row.valid_from != valid_from]
    proposed = Calendar(shop=shop, valid_from=valid_from, week=_week(days))
    return sorted([*others, proposed], key=lambda row: row.valid_from)


@transaction.atomic
def write_week(*, actor: Actor, week: Hours, valid_from: date, verb: str) -> None:
    """Writes the hours from a day on, unless that day has these already."""
    before = in_force(_locked(actor), valid_from)
    if before is not None and before.week == week:
        return
    if before is None or before.valid_from != valid_from:
        row = Calendar(shop=actor.shop, valid_from=valid_from, week=week)
        clean([row])
        row.save(force_insert=True)
    else:
        row = before
        row.week = week
        clean([row])
        row.save(update_fields=["week"])
    history.record(actor=actor, verb=verb, row=row, changes={"week": [before.week if before else None, week]})


@transaction.atomic
def take_back_week(*, actor: Actor, id: UUID, today: date) -> bool:
    """Removes hours that have not begun; False if the shop has none with this id. Refuses `hours-begun`."""
    rows = _locked(actor)
    row = next((row for row in rows if row.pk == id), None)
    if row is None:
        return False
    current = in_force(rows, today)
    if row.valid_from <= today or (current is not None and row.pk == current.pk):
        raise RequestError(409, "hours-begun")
    changes = {"valid_from": [row.valid_from.isoformat(), None], "week": [row.week, None]}
    history.record(actor=actor, verb="removed", row=row, changes=changes)
    row.delete()
    return True


def _locked(actor: Actor) -> list[Calendar]:
    """All opening hours of the shop, the earliest first, locked."""
    return list(Calendar.objects.select_for_update().filter(shop=actor.shop).order_by("valid_from"))


def _refuse_past(valid_from: date, today: date) -> None:
    if valid_from < today:
        raise field_error("/valid_from", "hours_day_past")


def _week(days: Iterable[Mapping[str, Any]]) -> Hours:
    week: Hours = {}
    for listed in days:
        day = listed["day"]
        if day in week:
            raise field_error(f"/week/{day}", "day_twice")
        week[day] = _spans(day, listed["spans"])
    open_days = {day: week[day] for day in WEEK if week.get(day)}
    if not open_days:
        raise field_error("/week", "never_open")
    return open_days


def days_between(first: date, last: date) -> tuple[date, ...]:
    """The days that `close_days` would close. Refuses at /last a day before the first, and too many days."""
    if last < first:
        raise field_error("/last", "before_the_first")
    if (last - first).days >= MOST_DAYS:
        raise field_error("/last", "closed_too_long", n=MOST_DAYS)
    return tuple(first + timedelta(days=offset) for offset in range((last - first).days + 1))


@transaction.atomic
def close_days(*, actor: Actor, first: date, last: date, reason: str) -> None:
    """Closes the shop from the first to the last day. A day that is closed already gets the reason."""
    for day in days_between(first, last):
        row = ClosedDay(shop=actor.shop, date=day, reason=reason)
        clean([row])
        stored, new = ClosedDay.objects.update_or_create(shop=actor.shop, date=row.date, defaults={"reason": reason})
        history.record(actor=actor, verb="added" if new else "changed", row=stored)


@transaction.atomic
def close_on(*, actor: Actor, days: Mapping[date, str]) -> None:
    """Closes the shop on several days, {day: reason}. A day that is closed already keeps its reason."""
    closed = set(ClosedDay.objects.filter(shop=actor.shop, date__in=days).values_list("date", flat=True))
    rows = [ClosedDay(shop=actor.shop, date=day, reason=reason) for day, reason in days.items() if day not in closed]
    clean(rows)
    ClosedDay.objects.bulk_create(rows)
    history.record_all(actor=actor, verb="added", rows=rows)


@transaction.atomic
def open_day(*, actor: Actor, id: UUID) -> bool:
    """Removes a closed day; False if the shop has none with this id."""
    row = ClosedDay.objects.select_for_update().filter(shop=actor.shop, pk=id).first()
    if row is None:
        return False
    changes = {"date": [row.date.isoformat(), None], "reason": [row.reason, None]}
    history.record(actor=actor, verb="removed", row=row, changes=changes)
    row.delete()
    return True


def _spans(day: str, spans: list[Mapping[str, str]]) -> list[list[str]]:
    place = f"/week/{day}"
    if len(spans) > MOST_SPANS:
        raise field_error(place, "hours_too_many", n=MOST_SPANS)
    read = sorted([_clock(span["opens"], place), _clock(span["closes"], place)] for span in spans)
    for opens, closes in read:
        if opens >= closes:
            raise field_error(place, "hours_backwards", opens=opens, closes=closes)
    for (_, closes), (opens, _) in zip(read, read[1:], strict=False):
        if opens < closes:
            raise field_error(place, "hours_overlap", opens=opens, closes=closes)
    return read


def _clock(text: str, place: str) -> str:
    """'8' and '8.30' as '08:00' and '08:30', whose order as texts is that of the day."""
    match = CLOCK.fullmatch(text.strip())
    if match is None:
        raise field_error(place, "clock", text=text)
    return f"{int(match[1] or 24):02d}:{match[2] or '00'}"
