"""Words the state of an e-mail."""

from datetime import datetime

from shop.answers.mails import MailState
from shop.models import Outbox, Shop
from shop.presenters.dates import instant_words
from shop.queries.outbox import is_unsure
from shop.words import say

State = Outbox.State


def mail_state(row: Outbox, now: datetime) -> MailState:
    return MailState.UNSURE if is_unsure(row, now) else MailState(row.state)


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
