"""A delivery day that a person entered, as the API answers it: in words, line by line, and how to undo it."""

from collections.abc import Sequence
from datetime import datetime
from typing import Any
from zoneinfo import ZoneInfo

from kitting.services.arrivals import Before, said_again
from shop.models import Shop
from shop.presenters.dates import shelf_words
from shop.presenters.rows import iso
from shop.queries.calendar import opening_hours


def due_shape(shop: Shop, changed: Sequence[Before], now: datetime) -> dict[str, Any]:
    zone, due = ZoneInfo(shop.zone), changed[0][0].due_at
    calendar = opening_hours(shop, due.astimezone(zone).date()) if due else None
    return {
        "words": shelf_words(due, calendar, zone.key, now.astimezone(zone).date()) if due else None,
        "items": [{"line": str(line.pk), "due_at": iso(line.due_at), "before": iso(was)} for line, was in changed],
        "undo": [
            {"lines": [str(line) for line in lines], "day": day.isoformat() if day else None, "time": at}
            for lines, day, at in said_again(changed, zone)
        ],
    }
