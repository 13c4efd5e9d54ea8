"""(actor, id) -> quote, link; the only way a view gets these rows."""

import hashlib
from datetime import datetime
from typing import Any
from uuid import UUID

from django.db.models import Exists, OuterRef
from django.http import Http404

from quotes.models import Line, Link, Quote, Revision
from shop.access import Actor, one
from shop.problems import field_problem

LAPSED = "lapsed"


def quote(who: Actor, id: UUID | str) -> Quote:
    return one(Quote, who, id, "customer", "vehicle", "job", "advisor__user")


def quotes(who: Actor) -> Any:
    return Quote.objects.filter(shop=who.shop)


def revisions(who: Actor) -> Any:
    return Revision.objects.filter(shop=who.shop)


def current(quote: Quote) -> Revision:
    """The issue that a person works on or that counts: the newest."""
    return (
        Revision.objects.filter(shop=quote.shop_id, quote=quote)
        .select_related("rules", "changed_by__user", "quote__customer", "quote__vehicle", "shop")
        .order_by("-number")[0]
    )


def line(revision: Revision, id: UUID | str) -> Line:
    found = Line.objects.filter(shop=revision.shop_id, revision=revision, pk=id).first()
    if found is None:
        raise Http404
    return found


def link(who: Actor, quote: Quote, id: UUID | str) -> Link:
    found = one(Link, who, id)
    if found.quote_id != quote.pk:
        raise Http404
    return found


def hash_of(token: str) -> str:
    return hashlib.sha256(token.encode()).hexdigest()


def link_by_token(id: UUID, token: str) -> Link | None:
    """The link of a secret, whatever its state; None for a guess."""
    found = Link.objects.filter(token_hash=hash_of(token)).select_related("quote", "shop").first()
    return found if found is not None and found.pk == id else None


def newest_revisions(who: Actor) -> Any:
    """The newest issue of every quote, with what a list shows."""
    later = Revision.objects.filter(shop=who.shop, quote=OuterRef("quote"), number__gt=OuterRef("number"))
    return (
        revisions(who)
        .filter(~Exists(later))
        .select_related("shop", "quote__customer", "quote__vehicle")
        .prefetch_related("lines")
    )


def newest_sent(quote: Quote) -> Revision | None:
    """The newest issue that was ever sent: what paper and links speak of."""
    rows = Revision.objects.filter(shop=quote.shop_id, quote=quote).exclude(state=Revision.State.DRAFT)
    return rows.select_related("quote", "shop").order_by("-number").first()


def in_state(rows: Any, state: str, now: datetime) -> Any:
    """Issues in a state as people see it: `lapsed` is sent and past its validity, `sent` is not."""
    if state == LAPSED:
        return rows.filter(state=Revision.State.SENT, valid_until__lt=now)
    if state not in Revision.State.values:
        raise field_problem("/state", "unknown_state", known=", ".join([*Revision.State.values, LAPSED]))
    rows = rows.filter(state=state)
    return rows.filter(valid_until__gte=now) if state == Revision.State.SENT else rows
