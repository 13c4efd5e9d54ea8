"""The account of a job as an answer: titles, consents and sums in words."""

import json
from collections.abc import Sequence

from quotes.answers.account import (
    AccountDepositOut,
    AccountOut,
    AccountRowOut,
    ClosedOut,
    CoreReturnOut,
    PaymentOut,
)
from quotes.models import Release
from quotes.presenters.deposit import deposit_words
from quotes.presenters.occurrences import happened_words
from quotes.queries.account import AccountRow, GivenConsent, JobAccount
from quotes.queries.called_off import OwedWork
from shop.answers.base import utc
from shop.calc.quantity import money
from shop.calc.snapshot import mark
from shop.models import CoreReturn, Payment
from shop.models.jobs import ENDED
from shop.models.payments import PaymentMeans
from shop.presenters.dates import day_words, instant_words
from shop.words import say
from shop.words.figures import figure, listed, tenths


def account_answer(account: JobAccount) -> AccountOut:
    """The account with its rows, payments and sums."""
    job, shop = account.job, account.job.shop
    e, sums = shop.exponent, account.sums
    return AccountOut(
        job=job.pk,
        number=str(job),
        quote=account.quote.pk if account.quote else None,
        quote_number=str(account.quote) if account.quote else "",
        customer=job.customer.name,
        vehicle=job.vehicle.title,
        plate=job.vehicle.plate,
        currency=shop.currency,
        exponent=e,
        rows=_rows(account),
        total=money(sums.total, e),
        tax_words=say("account.tax_inside", amount=figure(money(sums.tax, e))),
        received=money(sums.received, e),
        due=money(sums.due, e),
        settled=sums.settled,
        deposit=_deposit(account, e),
        payments=payment_answers(account.payments, account.releases, e),
        cores=core_answers(account.cores, e),
        closed=_closed(account, e),
        stops=[say("account.stop.change", quote=str(quote)) for quote in account.open_changes],
        caution=_caution(account),
    )


def _caution(account: JobAccount) -> str:
    """The sentence to read before a job is closed whose vehicle was not handed over."""
    job = account.job
    if account.closing or job.state in ENDED:
        return ""
    return say("account.caution.in_bay" if job.in_bay_on else "account.caution.before_bay")


def _rows(account: JobAccount) -> list[AccountRowOut]:
    """The rows as they stand; of a closed job those of its frozen text, then what came after it."""
    shop, closing = account.job.shop, account.closing
    frozen_rows = json.loads(closing.snapshot)["rows"] if closing else ()
    rows = [row_answer(row, shop.zone, shop.exponent) for row in account.rows]
    return [*(AccountRowOut(**row) for row in frozen_rows), *rows]


def _closed(account: JobAccount, e: int) -> ClosedOut | None:
    closing = account.closing
    if closing is None:
        return None
    name = closing.closed_by.user.name
    return ClosedOut(utc(closing.closed_at), name, money(closing.due, e), mark(closing.digest))


def row_answer(row: AccountRow, zone: str, e: int) -> AccountRowOut:
    kind = row.amount.kind
    return AccountRowOut(
        kind=kind,
        title=_title(row),
        why=_why(row, e),
        consent=consent_words(row.consent, zone) if row.consent else "",
        amount=money(row.amount.amount, e),
    )


def _why(row: AccountRow, e: int) -> list[str]:
    """The day on which a core came back or the job was called off; how often something happened."""
    if row.amount.kind == "called_off":
        return [say("account.called_off_day", day=day_words(row.day)) if row.day else "", *_still_owed(row, e)]
    if row.day:
        return [say("account.core_day", day=day_words(row.day))]
    if row.happened is None:
        return []
    content, charge = row.happened.content, row.happened.charge
    times = say("account.happened_times", n=charge.charged, price=figure(content["price"]))
    return [times, *([happened_words(row.happened)] if charge.over else [])]


def _still_owed(row: AccountRow, e: int) -> list[str]:
    """The work that is not taken off, because it was done or sent out."""
    return [_owed_words(work, e) for work in row.owed] or [say("account.owed_none")]


def _owed_words(work: OwedWork, e: int) -> str:
    words = _owed_amount(work, e)
    return say("account.owed_because", words=words, because=work.because) if work.because else words


def _owed_amount(work: OwedWork, e: int) -> str:
    amount = figure(money(work.amount.amount, e))
    if work.hours is None:
        return say("account.owed_work", title=work.title, amount=amount)
    if work.agreed and work.hours < work.agreed:
        return say(
            "account.owed_part",
            title=work.title,
            hours=tenths(work.hours),
            agreed=tenths(work.agreed),
            amount=amount,
        )
    return say("account.owed_labour", title=work.title, hours=tenths(work.hours), amount=amount)


def _title(row: AccountRow) -> str:
    """The title of a row: a person's own words, or the number of the quote."""
    kind = row.amount.kind
    if kind == "core":
        return say("account.core_late" if row.late else "account.core", title=row.title)
    if row.happened is not None:
        return say("account.happened", event=row.happened.content["event"], title=row.happened.content["title"])
    if kind == "called_off":
        return say("account.called_off")
    return row.title or say(f"account.row.{kind}", quote=row.quote, revision=row.revision)


def consent_words(consent: GivenConsent, zone: str) -> str:
    """'Maren Oldacre, Thu 26 Nov 2026, 18:42, on the link'"""
    facts = {"name": consent.name, "at": instant_words(consent.given_at, zone), "recorder": consent.recorded_by}
    return say(f"account.consent.{consent.way}", **facts)


def payment_answers(payments: tuple[Payment, ...], releases: Sequence[Release], e: int) -> list[PaymentOut]:
    """The payments in order, each with whether an opposite row cancels it and with the orders that it released."""
    reversed_ids = {payment.reversed_payment_id for payment in payments}
    released = {release.payment_id: _released(release) for release in releases}
    return [
        PaymentOut(
            id=payment.pk,
            amount=money(payment.amount, e),
            received_on=payment.received_on,
            means=PaymentMeans(payment.means),
            reference=payment.reference,
            reason=payment.reason,
            released=released.get(payment.pk, ""),
            recorded_at=utc(payment.recorded_at),
            recorded_by=payment.recorded_by.user.name,
            reverses=payment.reversed_payment_id,
            reversed=payment.pk in reversed_ids,
        )
        for payment in payments
    ]


def _released(release: Release) -> str:
    """The sentence that names the firms whose orders were released; a part may have no supplier yet."""
    orders = [order["supplier"] for order in release.content["suppliers"]]
    firms = list(dict.fromkeys(filter(None, [*orders, *(work["firm"] for work in release.content["outside"])])))
    return say("account.released", firms=listed(firms)) if firms else say("account.released_without_supplier")


def core_answers(cores: tuple[CoreReturn, ...], e: int) -> list[CoreReturnOut]:
    """The returned cores in order, each with whether an opposite row cancels it."""
    reversed_ids = {core.reversed_core_id for core in cores}
    return [
        CoreReturnOut(
            id=core.pk,
            title=core.title,
            amount=money(core.amount, e),
            returned_on=core.returned_on,
            reason=core.reason,
            recorded_at=utc(core.recorded_at),
            recorded_by=core.recorded_by.user.name,
            reverses=core.reversed_core_id,
            reversed=core.pk in reversed_ids,
        )
        for core in cores
    ]


def _deposit(account: JobAccount, e: int) -> AccountDepositOut | None:
    if account.deposit is None:
        return None
    words = deposit_words(account.deposit, account.sums.received, e)
    return AccountDepositOut(money(account.deposit, e), account.deposit_received, words)
