"""Owed to us: work of other firms that is out, and for advisor and manager what customers still have to pay."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from kitting.answers.outside import OutsideState
from shop.answers.base import Answer, Exact


class OwedOutsideOut(Answer, frozen=True):
    """A piece of work that is with another firm."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    number: Annotated[str, Meta(description="The job's number.")]
    quote: Annotated[UUID | None, Meta(description="The quote that opened it; null for who reads no quotes.")]
    customer: Annotated[str, Meta(description="The customer's name.")]
    plate: str
    title: str
    firm: str
    work: Annotated[str, Meta(description="The code under which the job holds it.")]
    contact: Annotated[
        str | None,
        Meta(description="The person to ask at the firm, and how; empty where none is recorded, null for technicians."),
    ]
    state: Annotated[OutsideState, Meta(description="Sent, or late.")]
    words: Annotated[str, Meta(description="Since when it is out, and when it is due.")]
    due_on: Annotated[date | None, Meta(description="The day by which it is due back; null without one.")]


class OwedMoneyOut(Answer, frozen=True):
    """A job that ended and is not paid or not closed."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    number: Annotated[str, Meta(description="The job's number.")]
    quote: Annotated[UUID | None, Meta(description="The quote that opened it.")]
    customer: Annotated[str, Meta(description="The customer's name.")]
    phone: Annotated[str, Meta(description="The customer's telephone; empty where none is recorded.")]
    amount: Annotated[
        Exact | None,
        Meta(description="Still to pay, below 0 to be paid back; null until the job is closed."),
    ]
    words: Annotated[str, Meta(description="The open question, in a sentence.")]


class OwedCoreOut(Answer, frozen=True):
    """A job whose old parts have not come back."""

    job: Annotated[UUID, Meta(description="The id of the job.")]
    number: Annotated[str, Meta(description="The job's number.")]
    quote: Annotated[UUID | None, Meta(description="The quote that opened it; null for who reads no quotes.")]
    customer: Annotated[str, Meta(description="The customer's name.")]
    phone: Annotated[
        str | None,
        Meta(description="The customer's telephone; empty where none is recorded, null for who sees no prices."),
    ]
    title: Annotated[str, Meta(description="The old parts for which deposits were taken.")]
    days: Annotated[int, Meta(description="Days since the deposit was agreed.")]
    words: Annotated[str, Meta(description="Since when it is open.")]
    amount: Annotated[
        Exact | None, Meta(description="The amount paid back when they come, with tax; null for who sees no prices.")
    ]


class OwedOut(Answer, frozen=True):
    """Everything that somebody owes the workshop."""

    outside: Annotated[list[OwedOutsideOut], Meta(description="Late work first.")]
    cores: Annotated[list[OwedCoreOut], Meta(description="Old parts that must come back, the longest open first.")]
    money: Annotated[list[OwedMoneyOut] | None, Meta(description="Null for parts and technicians.")]
    exponent: Annotated[int, Meta(description="The number of decimals of the currency.")]
