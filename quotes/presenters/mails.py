"""Words the states of the e-mails about a quote."""

from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import cast
from uuid import UUID

from django.conf import settings

from quotes.answers.mails import MailDecision, MailKind, MailOut, MailsOut, MailState, MailTroubleOut
from quotes.models import Quote
from shop.answers.base import utc
from shop.models import Outbox, Shop
from shop.presenters.dates import instant_words
from shop.queries.outbox import decisions, is_unsure
from shop.words import say

State = Outbox.State


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
        state=MailState.UNSURE if is_unsure(row, now) else MailState(row.state),
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


def state_words(row: Outbox, shop: Shop, now: datetime) -> str:
    at = instant_words(row.done_at or row.due_at, shop.zone)
    if is_unsure(row, now):
        return say("mail.state.restored" if row.reason == "restored" else "mail.state.unsure")
    if row.state == State.DONE:
        return say(f"mail.state.{row.reason or 'sent'}", at=at)
    if row.state == State.CANCELLED and row.reason == "person":
        return say("mail.state.cancelled")
    if not row.reason or row.state == State.BEGUN:
        return say(f"mail.state.{row.state}")
    why = say(f"mail.why.{row.reason}", reply=row.reply)
    return say(f"mail.state.{SENTENCES[State(row.state)]}", why=why, at=at)


SENTENCES = {State.WAITING: "retry", State.FAILED: "failed", State.CANCELLED: "dropped"}
