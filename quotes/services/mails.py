"""E-mails about a quote: asked for in the transaction of their cause, written when they are sent."""

from datetime import datetime
from typing import Any

from django.core.mail import EmailMessage
from django.db import transaction

from quotes.access import hash_of, newest_sent
from quotes.documents import receipt_paper
from quotes.documents.letters import link_letter, moved_letter, question_letter, receipt_letter, reply_letter
from quotes.documents.quote_pdf import kept_paper
from quotes.models import Decision, Link, Question, Quote, Revision, ToldDate
from quotes.queries import frozen
from quotes.queries.link_life import works_at
from quotes.queries.pricing import shop_day
from quotes.services.links import make_link
from shop.access import Actor
from shop.documents.letter import message
from shop.errors import RequestError
from shop.models import Outbox
from shop.rows import uuid7
from shop.sealing import opened, seal
from shop.services import feed, history, outbox
from shop.services.outbox_kinds import Kind, NotWantedError, register
from shop.words.languages import speaking

LINK, RECEIPT, MOVED, ASKED, REPLIED = "quote_link", "receipt", "moved_date", "question", "reply"
KINDS = (LINK, RECEIPT, MOVED, ASKED, REPLIED)
READABLE = (Revision.State.SENT, Revision.State.ACCEPTED)
ENDED = (Outbox.State.DONE, Outbox.State.CANCELLED)
OUTBOX = "outbox"  # the actor in the history where the outbox acts


@transaction.atomic
def send_link(*, actor: Actor, quote: Quote, to: str, recipient: str, digest: str, site: str, now: datetime) -> Outbox:
    """Asks for an e-mail with a link of its own, to the version that was seen. `site` is what its address begins with.

    409 where that version is no longer with the customer.
    """
    Quote.objects.select_for_update().get(pk=quote.pk)
    newest = newest_sent(quote)
    if newest is None or newest.digest != digest or newest.state_at(now) not in READABLE:
        raise RequestError(409, "not-sent")
    assert newest.valid_until is not None
    link, path = make_link(actor=actor, quote=quote, recipient=recipient, valid_until=newest.valid_until)
    id = uuid7()
    body = {
        "to": to,
        "link": str(link.pk),
        "sealed": seal(path.rpartition("/")[2], id),
        "site": site,
        "digest": digest,
    }
    row = outbox.put(actor=actor, kind=LINK, subject_id=quote.pk, body=body, now=now, id=id)
    history.record(actor=actor, verb="mail asked", row=quote, changes={"to": ["", to]})
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return row


def send_receipt(*, actor: Actor, decision: Decision, now: datetime) -> Outbox | None:
    """Asks for the receipt of an acceptance; None where the customer has no e-mail address.

    Call it in the transaction of the acceptance.
    """
    customer = decision.quote.customer
    if customer is None or not customer.email:
        return None
    body = {"to": customer.email, "decision": str(decision.pk)}
    return outbox.put(actor=actor, kind=RECEIPT, subject_id=decision.quote_id, body=body, now=now)


def send_moved_date(*, actor: Actor, quote: Quote, date_row: ToldDate, now: datetime) -> Outbox:
    """Asks for the e-mail that tells a moved date. 409 where the customer has no e-mail address.

    Call it in the transaction that records the date.
    """
    customer = quote.customer
    if customer is None or not customer.email:
        raise RequestError(409, "no-mail-address")
    body = {"to": customer.email, "told": str(date_row.pk)}
    return outbox.put(actor=actor, kind=MOVED, subject_id=quote.pk, body=body, now=now)


def send_question(*, actor: Actor, question: Question, site: str, now: datetime) -> Outbox | None:
    """Asks for the e-mail that tells the workshop of a question; None where the workshop has no e-mail address.

    `site` is what the address of the quote's screen begins with. Call it in the transaction that records the question.
    """
    shop = actor.shop
    if not shop.email:
        return None
    body = {"to": shop.email, "question": str(question.pk), "site": site}
    return outbox.put(actor=actor, kind=ASKED, subject_id=question.quote_id, body=body, now=now)


def send_reply(*, actor: Actor, question: Question, now: datetime) -> Outbox | None:
    """Asks for the e-mail with the reply to a question; None where the customer has no e-mail address.

    Call it in the transaction that records the reply.
    """
    customer = question.quote.customer
    if customer is None or not customer.email:
        return None
    body = {"to": customer.email, "question": str(question.pk)}
    return outbox.put(actor=actor, kind=REPLIED, subject_id=question.quote_id, body=body, now=now)


@transaction.atomic
def decide(*, actor: Actor, quote: Quote, mail: Outbox, decision: str, now: datetime) -> Outbox:
    """Records a person's decision about an e-mail."""
    Quote.objects.select_for_update().get(pk=quote.pk)
    row = outbox.decide(row=mail, decision=decision, now=now)
    history.record(actor=actor, verb=f"mail {decision}", row=quote, changes={"to": [row.body["to"], row.body["to"]]})
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return row


def _write_link(row: Outbox, now: datetime) -> EmailMessage:
    link = Link.objects.select_related("quote__customer", "quote__job", "shop").get(
        shop=row.shop_id, pk=row.body["link"]
    )
    newest = newest_sent(link.quote)
    if link.revoked_at is not None:
        raise NotWantedError("link_cancelled")
    if not works_at(link, now):
        raise NotWantedError("link_ended")
    if newest is None or newest.digest != row.body["digest"] or newest.state_at(now) not in READABLE:
        raise NotWantedError("withdrawn")
    token = opened(row.body["sealed"], row.pk)
    if hash_of(token) != link.token_hash:
        raise NotWantedError("link_lost")
    with speaking(*link.quote.languages):
        letter = link_letter(
            frozen.read(newest),
            link.shop,
            recipient=link.recipient,
            address=f"{row.body['site']}/q/{link.pk}/{token}",
            accepted=newest.state == Revision.State.ACCEPTED,
        )
        return message(row, letter, to=row.body["to"])


def _write_receipt(row: Outbox, now: datetime) -> EmailMessage:
    decisions = Decision.objects.select_related("revision__quote", "quote__customer", "quote__shop", "shop")
    decision = decisions.get(shop=row.shop_id, pk=row.body["decision"])
    revision, shop = decision.revision, decision.shop
    with speaking(*decision.quote.languages):
        letter = receipt_letter(frozen.read(revision), decision, shop, shop_day(shop, now))
        written = message(row, letter, to=row.body["to"])
    name = f"Q-{revision.quote.number}-{revision.number}.pdf"
    written.attach(receipt_paper.file_name(decision), receipt_paper.receipt_paper(decision), "application/pdf")
    written.attach(name, kept_paper(revision.pdf_sha256), "application/pdf")
    return written


def _write_moved_date(row: Outbox, now: datetime) -> EmailMessage:
    quote = Quote.objects.select_related("customer", "shop", "vehicle").get(shop=row.shop_id, pk=row.subject_id)
    date_row = ToldDate.objects.get(shop=row.shop_id, pk=row.body["told"])
    with speaking(*quote.languages):
        return message(row, moved_letter(quote, date_row), to=row.body["to"])


def _write_question(row: Outbox, now: datetime) -> EmailMessage:
    question = _question(row)
    if question.replied_at is not None:
        raise NotWantedError("replied")
    path = f"/{row.shop.slug}/counter/quote/{question.quote_id}#question-{question.pk}"
    with speaking(row.shop.language):
        return message(row, question_letter(question, address=row.body["site"] + path), to=row.body["to"])


def _write_reply(row: Outbox, now: datetime) -> EmailMessage:
    question = _question(row)
    with speaking(*question.quote.languages):
        return message(row, reply_letter(question), to=row.body["to"])


def _question(row: Outbox) -> Question:
    rows = Question.objects.select_related("quote__customer", "quote__vehicle", "quote__shop")
    return rows.get(shop=row.shop_id, pk=row.body["question"])


def _changed(row: Outbox, before: str) -> None:
    """Notes on the quote what became of the e-mail. An ended one forgets its secret."""
    actor = Actor(shop=row.shop, member=None, channel=OUTBOX)
    quote = Quote.objects.get(shop=row.shop_id, pk=row.subject_id)
    if row.state in ENDED:
        _forget(row)
    changes: dict[str, list[Any]] = {"state": [before, row.state], "to": [row.body["to"], row.body["to"]]}
    history.record(actor=actor, verb=f"mail {row.state}", row=quote, changes=changes)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)


def _forget(row: Outbox) -> None:
    row.body = {name: value for name, value in row.body.items() if name != "sealed"}
    row.save(update_fields=["body"])


def register_kinds() -> None:
    register(LINK, Kind(_write_link, _changed))
    register(RECEIPT, Kind(_write_receipt, _changed))
    register(MOVED, Kind(_write_moved_date, _changed))
    register(ASKED, Kind(_write_question, _changed))
    register(REPLIED, Kind(_write_reply, _changed))
