"""The quotes of a shop and what is owed to it as lists for a spreadsheet. They name no cost."""

from collections.abc import Iterator, Sequence
from datetime import datetime
from decimal import Decimal
from zoneinfo import ZoneInfo

from django.utils import timezone

from quotes import access
from quotes.presenters.owed import owed_answer
from quotes.presenters.quote import quote_row
from shop.access import Actor
from shop.documents.list_registry import OutList, register
from shop.tables.writing import Content
from shop.words import say

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


OWED_COLUMNS = ("kind", "job", "customer", "what", "whom", "since", "due", "amount")


def owed(actor: Actor) -> Iterator[Sequence[Content]]:
    """Work that other firms have, old parts and money, in the order of the screen."""
    answer = owed_answer(actor, timezone.now(), sees_money=True, asks_firms=True)
    for work in answer.outside:
        due = work.due_on.isoformat() if work.due_on else None
        whom = f"{work.firm}, {work.contact}" if work.contact else work.firm
        yield say("list.owed.outside"), work.number, work.customer, work.title, whom, work.words, due, None
    for core in answer.cores:
        who = (core.number, core.customer, core.title, core.phone)
        yield say("list.owed.core"), *who, core.words, None, core.amount and Decimal(core.amount)
    for money in answer.money or ():
        amount = money.amount and Decimal(money.amount)
        yield say("list.owed.money"), money.number, money.customer, None, money.phone, money.words, None, amount


register(OutList("owed", OWED_COLUMNS, owed))
