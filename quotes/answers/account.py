"""The account of a job: what was agreed and happened, what was received, and what is to pay."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from quotes.calc.account import RowKind, Settled
from shop.answers.base import Answer, Exact, Instant
from shop.models.payments import PaymentMeans


class AccountRowOut(Answer, frozen=True):
    """A row of the account, with the customer's acceptance of it."""

    kind: Annotated[RowKind, Meta(description="The kind of row. called_off: the amount not owed of it.")]
    title: str
    why: list[str]
    consent: Annotated[
        str, Meta(description="The consent with its person, time and way, in words; empty where none was needed.")
    ]
    amount: Annotated[Exact, Meta(description="With tax; with its minus where it takes away.")]


class RecordedOut(Answer, frozen=True, kw_only=True):
    """A row that a person recorded in the account. None is erased: a mistake gets an opposite row."""

    id: UUID
    recorded_at: Annotated[Instant, Meta(description="The time at which it was recorded.")]
    recorded_by: Annotated[str, Meta(description="The name of the person who recorded it.")]
    reverses: Annotated[UUID | None, Meta(description="The row whose opposite it is.")]
    reversed: Annotated[bool, Meta(description="An opposite row cancels it.")]


class PaymentOut(RecordedOut, frozen=True, kw_only=True):
    """A payment, a payment back, or the opposite row of one recorded by mistake."""

    amount: Annotated[Exact, Meta(description="Below 0 for money paid back and for an opposite row.")]
    received_on: Annotated[date, Meta(description="The day on which the money changed hands.")]
    means: Annotated[PaymentMeans, Meta(description="The means of payment.")]
    reference: Annotated[str, Meta(description="The number of a slip or transfer; empty without one.")]
    reason: Annotated[str, Meta(description="The reason for paying it back or reversing it; empty for money received.")]
    released: Annotated[
        str,
        Meta(description="The orders that it released by completing the deposit, in words; empty for none."),
    ]


class AccountDepositOut(Answer, frozen=True):
    """The deposit of the accepted quote."""

    amount: Annotated[Exact, Meta(description="The amount asked for, with tax.")]
    received: Annotated[bool, Meta(description="As much has been received.")]
    words: str


class CoreReturnOut(RecordedOut, frozen=True, kw_only=True):
    """A core deposit that the customer gets back, or the opposite row of one recorded by mistake."""

    title: Annotated[str, Meta(description="The old part.")]
    amount: Annotated[Exact, Meta(description="With tax; below 0 for an opposite row.")]
    returned_on: Annotated[date, Meta(description="The day on which the old part came back.")]
    reason: Annotated[str, Meta(description="The reason for reversing it; empty for a core that came back.")]


class ClosedOut(Answer, frozen=True):
    """The closing of a job."""

    at: Annotated[Instant, Meta(description="The time at which the job was closed.")]
    by: Annotated[str, Meta(description="The name of the person who closed it.")]
    due: Annotated[Exact, Meta(description="The sum to pay then.")]
    mark: Annotated[str, Meta(description="The check code of its text.")]


class AccountOut(Answer, frozen=True, kw_only=True):
    """The account of a job as it stands now."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    number: Annotated[str, Meta(description="The job's number.")]
    quote: Annotated[UUID | None, Meta(description="The id of the quote that opened the job.")]
    quote_number: Annotated[str, Meta(description="The number of that quote, or empty.")]
    customer: str
    vehicle: str
    plate: str
    currency: Annotated[str, Meta(description="Three letters (ISO 4217).")]
    exponent: Annotated[int, Meta(description="The decimal places of the currency.")]
    rows: Annotated[list[AccountRowOut], Meta(description="In the order in which they were agreed.")]
    total: Annotated[Exact, Meta(description="The sum of the rows, with tax.")]
    tax_words: Annotated[str, Meta(description="The tax inside the total, in words.")]
    received: Annotated[Exact, Meta(description="The sum of the payments.")]
    due: Annotated[Exact, Meta(description="The sum to pay; below 0 for a sum to pay back.")]
    settled: Annotated[Settled, Meta(description="Whether something is to pay, nothing is, or too much was paid.")]
    deposit: Annotated[AccountDepositOut | None, Meta(description="Null where none was asked for.")]
    payments: Annotated[list[PaymentOut], Meta(description="In the order in which they were recorded.")]
    cores: Annotated[list[CoreReturnOut], Meta(description="In the order in which they were recorded.")]
    closed: Annotated[ClosedOut | None, Meta(description="Null while the job is open.")]
    stops: Annotated[list[str], Meta(description="The reasons for which the job cannot be closed.")]
    caution: Annotated[
        str, Meta(description="The work that would be closed unfinished, in words; empty once the job has ended.")
    ]
