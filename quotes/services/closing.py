"""Closes a job with its account. The text is frozen and printed before the transaction, as when a quote is sent."""

from dataclasses import dataclass
from datetime import datetime
from decimal import Decimal

from django.db import transaction

from quotes.documents import quote_pdf
from quotes.documents.closing_account import closing_paper, closing_text
from quotes.models import ClosingAccount, Quote
from quotes.queries.account import JobAccount, job_account
from quotes.queries.closing import open_changes
from shop.access import Actor
from shop.calc.quantity import money
from shop.calc.snapshot import digest
from shop.errors import RequestError
from shop.models import Job
from shop.services import feed, history
from shop.services.files import record_file
from shop.words.languages import speaking


@dataclass(frozen=True, slots=True)
class PreparedAccount:
    """The account, frozen and printed. `seen` has all figures that could change before it is stored."""

    snapshot: str
    pdf: bytes
    seen: tuple[object, ...]
    closed_at: datetime


def prepare_closing(*, actor: Actor, job: Job, due: str, now: datetime) -> PreparedAccount:
    """Freezes and prints the account; writes nothing. Refused: not the sum that was seen, closed before."""
    account = job_account(job)
    _check(account, due)
    closed_at = now.replace(microsecond=0)
    languages = account.quote.languages if account.quote else ("", job.shop.language)
    name = actor.member.user.name if actor.member else ""
    with speaking(*languages):
        text = closing_text(account, closed_at, name)
        paper = closing_paper(text)
    return PreparedAccount(text, paper, _seen(account), closed_at)


@transaction.atomic
def close_job(*, actor: Actor, job: Job, prepared: PreparedAccount, due: str) -> ClosingAccount:
    """Stores the closing account. Refused if the account has moved since it was prepared."""
    list(Quote.objects.select_for_update().filter(shop=actor.shop, job=job).order_by("id"))
    Job.objects.select_for_update().get(shop=actor.shop, pk=job.pk)
    account = job_account(job)
    _check(account, due)
    if _seen(account) != prepared.seen:
        raise RequestError(409, "account-moved")
    mark = quote_pdf.keep(prepared.pdf)
    paper = record_file(
        shop=actor.shop,
        body=prepared.pdf,
        media_type="application/pdf",
        path=quote_pdf.path_of(mark),
        now=prepared.closed_at,
    )
    closing = ClosingAccount(
        shop=actor.shop,
        job=job,
        closed_at=prepared.closed_at,
        closed_by=actor.member,
        total=account.sums.total,
        tax=account.sums.tax,
        received=account.sums.received,
        due=account.sums.due,
        snapshot=prepared.snapshot,
        digest=digest(prepared.snapshot),
        paper=paper,
    )
    closing.clean_fields()
    closing.save(force_insert=True)
    history.record(actor=actor, verb="closed", row=closing)
    feed.record(actor=actor, kind=feed.Kind.JOBS)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return closing


def _check(account: JobAccount, due: str) -> None:
    if account.closing is not None:
        raise RequestError(409, "job-closed")
    if not account.rows:
        raise RequestError(409, "nothing-to-close")
    if open_changes(account.job):
        raise RequestError(409, "changes-open")
    if money(account.sums.due, account.job.shop.exponent) != due:
        raise RequestError(409, "account-moved")


def _seen(account: JobAccount) -> tuple[object, ...]:
    """All figures of the account that could change between printing and storing."""
    amounts: list[Decimal] = [row.amount.amount for row in account.rows]
    return (*amounts, *(payment.pk for payment in account.payments))
