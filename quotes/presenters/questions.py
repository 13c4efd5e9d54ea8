"""Questions of customers, for the quote's screen, the counter's list and the customer's page."""

from collections.abc import Iterable
from dataclasses import dataclass

from quotes.answers.questions import AskedOut, QuestionOut
from quotes.models import Question
from shop.answers.base import utc, utc_or_none
from shop.presenters.dates import instant_words


@dataclass(frozen=True, slots=True)
class QuestionRow:
    """A question on the customer's page: when it was asked and answered, in words."""

    text: str
    asked: str
    reply: str
    replied: str


def question_answer(question: Question) -> QuestionOut:
    return QuestionOut(
        id=question.pk,
        text=question.text,
        recipient=question.link.recipient,
        asked_at=utc(question.asked_at),
        reply=question.reply,
        replied_at=utc_or_none(question.replied_at),
        replied_by=question.replied_by.user.name if question.replied_by else None,
    )


def asked_answer(question: Question) -> AskedOut:
    quote = question.quote
    return AskedOut(
        id=question.pk,
        quote=quote.pk,
        number=str(quote),
        customer=quote.customer.name if quote.customer else None,
        text=question.text,
        asked_at=utc(question.asked_at),
    )


def question_rows(questions: Iterable[Question], zone: str) -> list[QuestionRow]:
    return [
        QuestionRow(
            text=question.text,
            asked=instant_words(question.asked_at, zone),
            reply=question.reply,
            replied=instant_words(question.replied_at, zone) if question.replied_at else "",
        )
        for question in questions
    ]
