"""The quotes of a shop as a list for a spreadsheet. It has what customers pay and no cost."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from django.utils import timezone

from quotes import access
from quotes.presenters.quote import quote_row
from shop.access import Actor
from shop.documents.list_registry import OutList, register
from shop.tables.writing import Content

COLUMNS = (
    *("quote", "version", "state", "customer", "vehicle", "plate", "kits", "total", "highest_total"),
    *("changed", "sent", "valid_until", "answered", "job", "job_state"),
)


def quotes(actor: Actor) -> Iterator[Sequence[Content]]:
    """The current version of each quote, the last changed first; totals are in the shop's currency."""
    now, zone = timezone.now(), ZoneInfo(actor.shop.zone)

    def day(instant: datetime | None) -> str | None:
        return instant.astimezone(zone).date().isoformat() if instant else None

    for revision in access.newest_revisions(actor).order_by(*access.BY_CHANGE).iterator(chunk_size=200):
        quote, row = revision.quote, quote_row(revision, now)
        yield (
            *(row.number, row.revision, row.state.value, row.customer, row.vehicle),
            quote.vehicle.plate if quote.vehicle else None,
            "; ".join(row.kits),
            *(None if total is None else Decimal(total) for total in (row.gross, row.gross_high)),
            *(day(instant) for instant in (revision.changed_at, revision.sent_at, revision.valid_until, revision.at)),
            *((str(quote.job), row.job_state.value.replace("_", " ")) if row.job_state else (None, None)),
        )


register(OutList("quotes", COLUMNS, quotes))
