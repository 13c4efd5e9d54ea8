"""A delivery day that a person entered, as an answer: in words, with the requests that undo it."""

from collections.abc import Sequence
from datetime import date, datetime
from uuid import UUID
from zoneinfo import ZoneInfo

from kitting.answers.dues import DueBackOut, DueOut
from kitting.models import PullLine
from shop.models import Shop
from shop.presenters.dates import shelf_words
from shop.queries.calendar import opening_hours


def due_answer(shop: Shop, changed: Sequence[tuple[PullLine, datetime | None]], now: datetime) -> DueOut:
    """`changed` are the lines with their earlier instants."""
    zone, due = ZoneInfo(shop.zone), changed[0][0].due_at
    calendar = opening_hours(shop, due.astimezone(zone).date()) if due else None
    return DueOut(
        words=shelf_words(due, calendar, zone.key, now.astimezone(zone).date()) if due else None,
        undo=_undo(changed, zone),
    )


def _undo(changed: Sequence[tuple[PullLine, datetime | None]], zone: ZoneInfo) -> list[DueBackOut]:
    """The requests that give the lines their earlier dates back, one for each instant."""
    lines: dict[tuple[date | None, str | None], list[UUID]] = {}
    for line, before in changed:
        lines.setdefault(_as_typed(before, zone), []).append(line.pk)
    return [DueBackOut(lines=ids, day=day, time=hour) for (day, hour), ids in lines.items()]


def _as_typed(due: datetime | None, zone: ZoneInfo) -> tuple[date | None, str | None]:
    """(day, "HH:MM") of the instant."""
    if due is None:
        return None, None
    local = due.astimezone(zone)
    return local.date(), local.strftime("%H:%M")
