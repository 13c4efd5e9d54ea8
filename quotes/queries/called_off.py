"""Reads what the customer still pays for after a job was called off: outside work that had been sent out."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from kitting.queries.outside import outside_logs, progress_of
from quotes.calc.account import AccountAmount
from quotes.calc.agreed import AgreedItem
from quotes.calc.frozen import total_alone
from quotes.queries.changes import agreed_job
from shop.models import Job


@dataclass(frozen=True, slots=True)
class OwedWork:
    """Outside work that was sent out before the job was called off, with its price and the tax inside it."""

    title: str
    amount: AccountAmount


def owed_work(job: Job) -> tuple[OwedWork, ...]:
    """The agreed outside work that was sent out and that no change took off, in the order of the agreements."""
    agreed, logs = agreed_job(job, job.shop_id), outside_logs(job.shop_id, [job.pk]).get(job.pk, {})
    return tuple(
        OwedWork(_name(item, quote.document), _with_tax(item, quote.document))
        for quote in agreed.quotes
        for item in agreed.standing(quote)
        if item.kind == "outside" and progress_of(logs.get(item.key, ())).state != "proposed"
    )


def _name(item: AgreedItem, document: Mapping[str, Any]) -> str:
    """The work with its firm: 'Calibration by Lathe & Lambda'."""
    names = {f"outside:{work['line']}": work["name"] for work in document["shown"]["outside"]}
    return str(names.get(item.key, item.title))


def _with_tax(item: AgreedItem, document: Mapping[str, Any]) -> AccountAmount:
    """An item with the taxes of the text in which it was agreed."""
    totals = total_alone(document["inputs"], item.tax_class, item.value)
    return AccountAmount("agreed", totals.gross, totals.tax_total)
