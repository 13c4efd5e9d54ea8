"""A customer's questions from the link, and the workshop's replies."""

from datetime import datetime, timedelta

from django.db import transaction

from quotes.models import Link, Question, Quote
from quotes.services.links import works
from quotes.services.mails import send_question, send_reply
from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.services import feed, history
from shop.typed import ControlCharacterError, visible

MOST_OPEN = 10
LONGEST = 1000
MOST_IN_A_WHILE, A_WHILE = 5, timedelta(minutes=10)


class QuestionError(Exception):
    """Raised for a question that is not recorded. `code` is link, empty, too_long, too_many or too_fast."""

    def __init__(self, code: str) -> None:
        super().__init__(code)
        self.code = code


@transaction.atomic
def ask(*, link: Link, text: str, site: str, now: datetime) -> Question:
    """Records a question, and asks for the e-mail that tells the workshop of it.

    The same text, still without a reply, is a repeat and returns its row. `site` is what our addresses begin with.
    """
    quote = Quote.objects.select_for_update(of=("self",)).select_related("shop").get(pk=link.quote_id)
    if not works(link, now):
        raise QuestionError("link")
    words = plain_text(text)
    if not words or len(words) > LONGEST:
        raise QuestionError("too_long" if words else "empty")
    earlier = Question.objects.filter(shop=quote.shop, quote=quote)
    repeated = earlier.filter(replied_at__isnull=True, link=link, text=words).first()
    if repeated is not None:
        return repeated
    if earlier.filter(replied_at__isnull=True).count() >= MOST_OPEN:
        raise QuestionError("too_many")
    if earlier.filter(asked_at__gt=now - A_WHILE).count() >= MOST_IN_A_WHILE:
        raise QuestionError("too_fast")
    question = Question(shop=quote.shop, quote=quote, link=link, asked_at=now, text=words)
    question.clean_fields()
    question.save(force_insert=True)
    actor = Actor(shop=quote.shop, member=None, channel="link")
    history.record(actor=actor, verb="asked", row=question)
    send_question(actor=actor, question=question, site=site, now=now)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return question


@transaction.atomic
def reply(*, actor: Actor, quote: Quote, question: Question, text: str, now: datetime) -> Question:
    """Records the reply, once, and asks for the e-mail that brings it to the customer."""
    Quote.objects.select_for_update().get(pk=quote.pk)
    question.refresh_from_db()
    if question.replied_at is not None:
        raise RequestError(409, "already-replied")
    question.reply, question.replied_at, question.replied_by = plain_text(text), now, actor.member
    if not question.reply:
        raise field_error("/reply", "reply_in_letters")
    question.clean_fields()
    question.save(update_fields=["reply", "replied_at", "replied_by"])
    history.record(actor=actor, verb="replied", row=question)
    send_reply(actor=actor, question=question, now=now)
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return question


def plain_text(text: str) -> str:
    """The text without invisible characters, its lines kept; empty for one with a control character."""
    try:
        lines = [" ".join(visible(line.replace("\t", " ")).split()) for line in text.splitlines()]
    except ControlCharacterError:
        return ""
    return "\n".join(lines).strip()
