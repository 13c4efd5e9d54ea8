"""Reads what the customer still pays for after a job was called off: work that was done, and work that was sent out."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from typing import Any
from uuid import UUID

from kitting.queries.outside import outside_logs, progress_of
from quotes.calc.account import AccountAmount
from quotes.calc.agreed import AgreedItem
from quotes.calc.frozen import total_alone
from quotes.calc.worked import worked_share
from quotes.models import WorkedHours
from quotes.queries.changes import AgreedJob, AgreedQuote, agreed_job
from shop.models import Job, JobOperation

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class OwedWork:
    """Work that was carried out before the job was called off, with its price and the tax inside it.

    Outside work was sent out; a step of our own was done or worked on, and has `hours`, of the `agreed` ones.
    """

    title: str
    amount: AccountAmount
    hours: Decimal | None = None
    agreed: Decimal | None = None
    because: str = ""  # the reason, where a person corrected the hours


@dataclass(frozen=True, slots=True)
class AgreedLabour:
    """A step with a price of its own, the hours that are owed for it, and their price with tax.

    The owed hours are those to which a person corrected the step (`worked`), else the agreed ones if it is done.
    """

    step: JobOperation
    title: str
    agreed: Decimal
    hours: Decimal
    amount: AccountAmount
    worked: WorkedHours | None


def owed_work(job: Job) -> tuple[OwedWork, ...]:
    """The agreed steps that were done and the outside work that was sent out, in the order of the agreements.

    What a change took off is not among them, and a step that another one includes is charged with that one.
    """
    agreed, logs = agreed_job(job, job.shop_id), outside_logs(job.shop_id, [job.pk]).get(job.pk, {})
    labour: dict[tuple[UUID | None, str], AgreedLabour] = {
        (work.step.origin_id, work.step.sheet["item"]): work for work in _labour(job, agreed)
    }
    owed = []
    for quote in agreed.quotes:
        for item in agreed.standing(quote):
            work = labour.get((quote.agreement, item.key))
            if work is not None and work.hours:
                because = work.worked.reason if work.worked else ""
                owed.append(OwedWork(work.title, work.amount, work.hours, work.agreed, because))
            elif item.kind == "outside" and progress_of(logs.get(item.key, ())).state != "proposed":
                owed.append(OwedWork(_name(item, quote.document), _with_tax(item.value, item, quote.document)))
    return tuple(owed)


def agreed_labour(job: Job) -> tuple[AgreedLabour, ...]:
    """The steps with a price of their own, in the order of the agreements, with what is owed of each."""
    return tuple(_labour(job, agreed_job(job, job.shop_id)))


def _labour(job: Job, agreed: AgreedJob) -> Iterator[AgreedLabour]:
    steps, worked = _steps(job), _worked(job)
    for quote in agreed.quotes:
        for item in agreed.standing(quote):
            step = steps.get((quote.agreement, item.key)) if item.kind == "labour" and item.value else None
            if step is not None:
                yield _labour_of(step, item, quote, worked.get(step.pk), job.shop.exponent)


def _labour_of(
    step: JobOperation, item: AgreedItem, quote: AgreedQuote, worked: WorkedHours | None, exponent: int
) -> AgreedLabour:
    done = item.hours if step.state == JobOperation.State.DONE else NOTHING
    hours = worked.hours if worked else done
    value = worked_share(item.value, item.hours, hours, exponent)
    return AgreedLabour(step, item.title, item.hours, hours, _with_tax(value, item, quote.document), worked)


def _steps(job: Job) -> dict[tuple[UUID | None, str], JobOperation]:
    """Maps (agreement, key in its text) to the step."""
    rows = JobOperation.objects.filter(shop=job.shop_id, job=job).select_related("done_by__user")
    return {(row.origin_id, row.sheet["item"]): row for row in rows if "item" in row.sheet}


def _worked(job: Job) -> dict[UUID, WorkedHours]:
    """Maps a step to the newest correction of its hours."""
    rows = WorkedHours.objects.filter(shop=job.shop_id, step__job=job).select_related("recorded_by__user")
    return {row.step_id: row for row in rows.order_by("recorded_at", "id")}


def _name(item: AgreedItem, document: Mapping[str, Any]) -> str:
    """The work with its firm: 'Calibration by Lathe & Lambda'."""
    names = {f"outside:{work['line']}": work["name"] for work in document["shown"]["outside"]}
    return str(names.get(item.key, item.title))


def _with_tax(value: Decimal, item: AgreedItem, document: Mapping[str, Any]) -> AccountAmount:
    """A value with the taxes of the text in which the item was agreed."""
    totals = total_alone(document["inputs"], item.tax_class, value)
    return AccountAmount("agreed", totals.gross, totals.tax_total)
