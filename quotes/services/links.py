"""Links: one recipient's access to a quote. The secret is shown once; only its hash is stored."""

import secrets
from datetime import datetime, timedelta

from django.db import transaction
from django.utils import timezone

from quotes.access import hash_of, newest_sent
from quotes.models import Link, Quote, Revision
from quotes.queries.link_life import works_at
from shop.access import Actor
from shop.errors import RequestError
from shop.services import history

KEPT = timedelta(days=60)  # after the quote's last day, in which a customer may still read it and its receipt


@transaction.atomic
def make_link(*, actor: Actor, quote: Quote, recipient: str, valid_until: datetime) -> tuple[Link, str]:
    """Adds a link; (link, its path with the secret). The path is never stored. Call it under the quote's lock."""
    token = secrets.token_urlsafe(32)
    link = Link(
        shop=quote.shop,
        quote=quote,
        token_hash=hash_of(token),
        recipient=recipient,
        made_at=timezone.now(),
        expires_at=valid_until + KEPT,
    )
    link.clean_fields()
    link.save(force_insert=True)
    history.record(actor=actor, verb="linked", row=quote, changes={"recipient": ["", link.recipient]})
    return link, f"/q/{link.pk}/{token}"


def works(link: Link, now: datetime) -> bool:
    """Returns whether the link is open, as it is stored now. Call it under the quote's lock."""
    link.refresh_from_db(fields=["revoked_at"])
    return works_at(link, now)


@transaction.atomic
def revoke_link(*, actor: Actor, quote: Quote, link: Link) -> None:
    """Cancels a link. The quote's lock decides between this and an acceptance at the same moment."""
    Quote.objects.select_for_update().get(pk=quote.pk)
    link.refresh_from_db()
    if link.revoked_at is None:
        link.revoked_at = timezone.now()
        link.save(update_fields=["revoked_at"])
        history.record(actor=actor, verb="link cancelled", row=quote, changes={"recipient": [link.recipient, ""]})


@transaction.atomic
def link_to_sent(*, actor: Actor, quote: Quote, recipient: str) -> tuple[Link, str]:
    """Adds a link to the sent or accepted revision. Refused if there is none."""
    Quote.objects.select_for_update().get(pk=quote.pk)
    newest = newest_sent(quote)
    readable = (Revision.State.SENT, Revision.State.ACCEPTED)
    if newest is None or newest.state not in readable or newest.valid_until is None:
        raise RequestError(409, "not-sent")
    return make_link(actor=actor, quote=quote, recipient=recipient, valid_until=newest.valid_until)
