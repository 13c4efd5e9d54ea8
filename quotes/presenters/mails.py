"""Words the states of the e-mails about a quote."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import cast
from uuid import UUID

from django.conf import settings

from quotes.answers.mails import MailDecision, MailKind, MailOut, MailsOut, MailTroubleOut
from quotes.models import Quote
from shop.answers.base import utc
from shop.models import Outbox, Shop
from shop.presenters.mails import mail_state, state_words
from shop.queries.outbox import decisions


def mails_answer(quote: Quote, rows: Iterable[Outbox], now: datetime) -> MailsOut:
    return MailsOut(
        is_sent=settings.MAIL_IS_SENT,
        address=quote.customer.email if quote.customer else "",
        items=[mail_answer(row, quote.shop, now) for row in rows],
    )


def mail_answer(row: Outbox, shop: Shop, now: datetime) -> MailOut:
    return MailOut(
        id=row.pk,
        kind=MailKind(row.kind),
        to=row.body["to"],
        state=mail_state(row, now),
        words=state_words(row, shop, now),
        asked_at=utc(row.asked_at),
        asked_by=row.author.user.name if row.author else None,
        decisions=cast(list[MailDecision], list(decisions(row, now))),
    )


def trouble_answer(row: Outbox, quotes: Mapping[UUID, Quote], shop: Shop, now: datetime) -> MailTroubleOut:
    quote = quotes[row.subject_id]
    return MailTroubleOut(
        quote=quote.pk,
        number=str(quote) or None,
        customer=quote.customer.name if quote.customer else None,
        to=row.body["to"],
        words=state_words(row, shop, now),
        asked_at=utc(row.asked_at),
    )
