"""A quote. A sent version has the same form as a draft, with the figures of its frozen text."""

from datetime import date
from typing import Annotated
from uuid import UUID

from msgspec import Meta

from quotes.answers.changes import QuoteChangeOut
from quotes.answers.choices import ChoiceOut
from quotes.answers.figures import ReceivedDepositOut, ShownOut
from quotes.answers.line_photographs import LinePhotographOut
from quotes.answers.links import LinkOut, NewLinkOut
from quotes.answers.prices import PriceRangeOut, UndecidedOut
from quotes.answers.questions import QuestionOut
from quotes.answers.rows import QuoteState
from quotes.answers.to_settle import ToSettleOut
from quotes.answers.undo import DraftStepOut
from quotes.models.answers import AnswerWay, DecisionAnswer
from shop.answers.base import Answer, Exact, Instant
from shop.answers.promise import PromiseOut
from shop.answers.vehicles import VinCheckOut
from shop.models.jobs import JobState


class ConditionOut(Answer, frozen=True):
    """A condition of the fasteners."""

    code: Annotated[str, Meta(description="Of the condition, as the price rules name it.")]
    factor: Annotated[Exact, Meta(description="The hours of the operations that it concerns are multiplied by it.")]


class TaxClassOut(Answer, frozen=True):
    """A tax class of the price rules."""

    code: Annotated[str, Meta(description="As the price rules name it.")]
    words: Annotated[str, Meta(description='The class with its taxes: "labour: Value added tax 20 %".')]


class NewerRulesOut(Answer, frozen=True):
    """Price rules in force that are newer than those of the draft."""

    number: Annotated[int, Meta(description="The number of the price rules.")]
    valid_from: date
    declined: Annotated[bool, Meta(description="This draft keeps its own.")]


class QuoteRulesOut(Answer, frozen=True):
    """The price rules of a quote."""

    number: Annotated[int, Meta(description="The number of the price rules.")]
    valid_from: date
    prices_include_tax: bool
    conditions: Annotated[list[ConditionOut], Meta(description="Of the fasteners, by which hours are raised.")]
    skills: Annotated[list[str], Meta(description="The skills whose hours have a price.")]
    tax_classes: Annotated[list[TaxClassOut], Meta(description="Those that a line can have.")]
    newer: Annotated[NewerRulesOut | None, Meta(description="Null where the quote has the newest.")]


class ValidityOut(Answer, frozen=True):
    """The time for which a draft can be accepted once it is sent."""

    days: Annotated[int, Meta(description="After the day of sending.")]
    why: Annotated[str | None, Meta(description="Null where the price rules set it.")]


class QuoteCustomerOut(Answer, frozen=True):
    """The customer of a quote."""

    id: UUID
    name: str
    phone: str
    email: str


class QuoteVehicleOut(Answer, frozen=True):
    """The vehicle of a quote."""

    id: UUID
    title: Annotated[str, Meta(description="The make and model.")]
    vin_tail: Annotated[str, Meta(description="The last six characters of the VIN.")]
    vin_check: Annotated[VinCheckOut | None, Meta(description="Null where no VIN is recorded.")]
    plate: str
    attributes: dict[str, str]
    capacities: Annotated[dict[str, Exact], Meta(description="Litres by circuit.")]
    version: int


class AnswerOut(Answer, frozen=True):
    """The customer's answer."""

    answer: Annotated[DecisionAnswer, Meta(description="Whether the quote was accepted.")]
    name: Annotated[str, Meta(description="As it was typed with the answer.")]
    at: Annotated[Instant, Meta(description="The time at which the customer answered.")]
    consents: Annotated[list[str], Meta(description="The consents that were given, in words.")]
    waits: Annotated[
        str | None,
        Meta(description="From when work begins, in words, where the consent to begin early was not given."),
    ]
    price: Annotated[str | None, Meta(description="The one of several prices that was accepted, in words.")]
    options: Annotated[list[str], Meta(description="The options that were accepted, in words.")]
    way: Annotated[AnswerWay, Meta(description="By the link, by phone or at the counter.")]
    phone: Annotated[str, Meta(description="The number called; empty for any other way.")]
    recorded_by: Annotated[str | None, Meta(description="The person who recorded a spoken answer.")]
    reason: Annotated[str, Meta(description="The reason for declining it; empty where none was given.")]
    words: Annotated[list[str], Meta(description="The words shown or read out beside the consents.")]


class QuoteJobOut(Answer, frozen=True):
    """The job of an accepted quote."""

    id: UUID
    number: Annotated[str, Meta(description="The job's number.")]
    state: JobState


class OutstandingRevisionOut(Answer, frozen=True):
    """The sent version that the customer can still accept."""

    revision: Annotated[int, Meta(description="The number of the version.")]
    digest: Annotated[str, Meta(description="SHA-256 of the frozen text, in hexadecimal digits.")]


class QuoteOut(ShownOut, frozen=True):
    """A quote: the draft at today's prices, or the newest sent version."""

    out: Annotated[
        OutstandingRevisionOut | None, Meta(description="The sent version that the customer can still accept.")
    ]
    id: UUID
    number: Annotated[str | None, Meta(description="Null until its first kit, part or line.")]
    note: Annotated[str, Meta(description="The workshop's own; no customer reads it.")]
    customer_note: Annotated[str, Meta(description="The customer reads it on page and paper; empty for none.")]
    state: QuoteState
    revision: Annotated[int, Meta(description="The number of the version.")]
    version: int
    editable: Annotated[bool, Meta(description="It is a draft.")]
    digest: Annotated[str | None, Meta(description="Of the frozen text; null for a draft.")]
    mark: Annotated[str | None, Meta(description="The check code, made of the digest.")]
    changed_at: Instant
    changed_by: Annotated[str, Meta(description="The name of the person who changed it last.")]
    sent_at: Instant | None
    valid_until: Instant | None
    validity: Annotated[ValidityOut | None, Meta(description="Of a draft, if it is sent today.")]
    currency: Annotated[str, Meta(description="Three letters (ISO 4217).")]
    exponent: Annotated[int, Meta(description="The decimal places of the currency.")]
    customer: Annotated[QuoteCustomerOut | None, Meta(description="Null until one is chosen.")]
    vehicle: Annotated[QuoteVehicleOut | None, Meta(description="Null until one is chosen.")]
    condition: Annotated[str, Meta(description="The code of the condition of the fasteners.")]
    here: Annotated[bool, Meta(description="The vehicle is here already.")]
    here_from: Annotated[date | None, Meta(description="The day it comes, where that was recorded.")]
    promise: PromiseOut | None
    no_promise: Annotated[str | None, Meta(description="The reason for which there is no promise, in words.")]
    rules: Annotated[QuoteRulesOut, Meta(description="The price rules that it was begun with, or was sent with.")]
    undo: Annotated[DraftStepOut | None, Meta(description="Of a draft: the change that can be undone next.")]
    redo: Annotated[DraftStepOut | None, Meta(description="Of a draft: the undone change that can be done again.")]
    stops: Annotated[list[str], Meta(description="The questions to settle before it can be sent.")]
    to_settle: Annotated[
        list[ToSettleOut], Meta(description="Of a draft: what stops it, what is not recorded, what is worth knowing.")
    ]
    undecided: Annotated[UndecidedOut | None, Meta(description="Null where there is one price.")]
    range: Annotated[
        PriceRangeOut | None, Meta(description="The range to say on the phone; null where every price is shown.")
    ]
    choices: Annotated[list[ChoiceOut], Meta(description="The choices left to the customer, in order.")]
    photographs: Annotated[list[LinePhotographOut], Meta(description="Those of its lines, the first one first.")]
    links: Annotated[list[LinkOut], Meta(description="Those of all its versions, the first one first.")]
    questions: Annotated[list[QuestionOut], Meta(description="Of the customer, the first one first.")]
    answer: Annotated[AnswerOut | None, Meta(description="Null until the customer accepts or declines.")]
    job: Annotated[QuoteJobOut | None, Meta(description="Null until the customer accepts.")]
    deposit_received: Annotated[
        ReceivedDepositOut | None, Meta(description="Null without a deposit, and until money is received.")
    ]
    change: Annotated[QuoteChangeOut | None, Meta(description="Null for a quote that opens a job.")]
    pull_list: Annotated[UUID | None, Meta(description="The pull list of the job.")]


class SentOut(Answer, frozen=True):
    """A quote that was sent just now, with the recipient's link."""

    quote: Annotated[QuoteOut, Meta(description="The quote as it was sent.")]
    link: Annotated[NewLinkOut, Meta(description="The recipient's link.")]
