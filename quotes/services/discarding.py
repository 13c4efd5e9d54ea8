"""Discards a draft that was never sent. Its rows and its history stay, so that it can be brought back."""

from django.db import transaction
from django.utils import timezone

from quotes.models import Quote, Revision
from quotes.services.drafts import lock_draft
from shop.access import Actor
from shop.errors import RequestError
from shop.services import feed, history


@transaction.atomic
def discard_quote(*, actor: Actor, quote: Quote, seen: int) -> None:
    """Hides the quote from every list. Refused once one of its revisions was sent."""
    lock_draft(quote=quote, seen=seen)
    if Revision.objects.filter(shop=quote.shop_id, quote=quote).exclude(state=Revision.State.DRAFT).exists():
        raise RequestError(409, "cannot-discard")
    quote.discarded_at = timezone.now()
    quote.save(update_fields=["discarded_at"])
    history.record(actor=actor, verb="discarded", row=quote)
    feed.record(actor=actor, kind=feed.Kind.DRAFTS)


@transaction.atomic
def restore_quote(*, actor: Actor, quote: Quote) -> None:
    """Brings a discarded quote back unchanged. Does nothing to a quote that is not discarded."""
    quote = Quote.objects.select_for_update(of=("self",)).get(pk=quote.pk)
    if quote.discarded_at is None:
        return
    quote.discarded_at = None
    quote.save(update_fields=["discarded_at"])
    history.record(actor=actor, verb="restored", row=quote)
    feed.record(actor=actor, kind=feed.Kind.DRAFTS)
