"""A delivery day that a person entered, as the API answers it: in words, line by line, and how to undo it."""

from collections.abc import Sequence
from datetime import datetime
from zoneinfo import ZoneInfo

from kitting.answers.dues import DueBackOut, DueLineOut, DueOut
from kitting.services.arrivals import Before, said_again
from shop.answers.base import utc_or_none
from shop.models import Shop
from shop.presenters.dates import shelf_words
from shop.queries.calendar import opening_hours


def due_answer(shop: Shop, changed: Sequence[Before], now: datetime) -> DueOut:
    zone, due = ZoneInfo(shop.zone), changed[0][0].due_at
    calendar = opening_hours(shop, due.astimezone(zone).date()) if due else None
    return DueOut(
        words=shelf_words(due, calendar, zone.key, now.astimezone(zone).date()) if due else None,
        items=[DueLineOut(line.pk, due_at=utc_or_none(line.due_at), before=utc_or_none(was)) for line, was in changed],
        undo=[DueBackOut(lines=lines, day=day, time=at) for lines, day, at in said_again(changed, zone)],
    )
