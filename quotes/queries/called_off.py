"""Reads what the customer still pays for after a job was called off: work that was done, and work that was sent out."""

from collections.abc import Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any
from uuid import UUID

from kitting.queries.outside import outside_logs, progress_of
from quotes.calc.account import AccountAmount
from quotes.calc.agreed import AgreedItem
from quotes.calc.frozen import total_alone
from quotes.queries.changes import agreed_job
from shop.models import Job, JobOperation


@dataclass(frozen=True, slots=True)
class OwedWork:
    """Work that was carried out before the job was called off, with its price and the tax inside it.

    Outside work was sent out; a step of our own was done and has `hours`.
    """

    title: str
    amount: AccountAmount
    hours: Decimal | None = None


def owed_work(job: Job) -> tuple[OwedWork, ...]:
    """The agreed steps that were done and the outside work that was sent out, in the order of the agreements.

    What a change took off is not among them, and a step that another one includes is charged with that one.
    """
    agreed, logs, done = agreed_job(job, job.shop_id), outside_logs(job.shop_id, [job.pk]).get(job.pk, {}), _done(job)
    return tuple(
        OwedWork(
            _name(item, quote.document),
            _with_tax(item, quote.document),
            item.hours if item.kind == "labour" else None,
        )
        for quote in agreed.quotes
        for item in agreed.standing(quote)
        if (item.kind == "outside" and progress_of(logs.get(item.key, ())).state != "proposed")
        or (item.kind == "labour" and item.value and (quote.agreement, item.key) in done)
    )


def _done(job: Job) -> set[tuple[UUID | None, str]]:
    """(agreement, key in its text) of the steps that are done."""
    rows = JobOperation.objects.filter(shop=job.shop_id, job=job, state=JobOperation.State.DONE)
    return {(origin, sheet.get("item", "")) for origin, sheet in rows.values_list("origin_id", "sheet")}


def _name(item: AgreedItem, document: Mapping[str, Any]) -> str:
    """The work with its firm: 'Calibration by Lathe & Lambda'."""
    names = {f"outside:{work['line']}": work["name"] for work in document["shown"]["outside"]}
    return str(names.get(item.key, item.title))


def _with_tax(item: AgreedItem, document: Mapping[str, Any]) -> AccountAmount:
    """An item with the taxes of the text in which it was agreed."""
    totals = total_alone(document["inputs"], item.tax_class, item.value)
    return AccountAmount("agreed", totals.gross, totals.tax_total)
