"""Calls to customers who have not answered, and when their links were first opened."""

from datetime import datetime

from django.db import IntegrityError, transaction

from quotes import access
from quotes.models import FollowUp, Link, LinkOpening, Quote, Revision
from shop.access import Actor
from shop.errors import RequestError
from shop.services import feed, history


@transaction.atomic
def record_call(*, actor: Actor, quote: Quote, outcome: str, now: datetime) -> FollowUp:
    """Records who rang about a sent quote, when, and what the customer said. Refused once it is not sent any more."""
    Quote.objects.select_for_update().get(pk=quote.pk)
    if access.live(quote) is None:
        raise RequestError(409, "not-sent")
    call = FollowUp(shop=quote.shop, quote=quote, outcome=outcome, called_at=now, called_by=actor.member)
    call.clean_fields()
    call.save(force_insert=True)
    history.record(actor=actor, verb="followed up", row=quote, changes={"outcome": ["", outcome]})
    feed.record(actor=actor, kind=feed.Kind.QUOTES)
    return call


def note_opening(*, link: Link, revision: Revision, now: datetime) -> None:
    """Notes the first time that the link showed this version. Nothing that a customer sees depends on it."""
    if LinkOpening.objects.filter(shop=link.shop_id, link=link, revision=revision).exists():
        return
    try:
        with transaction.atomic():
            LinkOpening.objects.create(shop=link.shop, link=link, revision=revision, opened_at=now)
    except IntegrityError:  # another request of the same link was faster
        return
