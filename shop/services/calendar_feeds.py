"""Secret addresses for calendars, made and revoked by a manager. A secret has 256 random bits: a fast hash will do."""

import secrets
from datetime import datetime

from django.db import transaction

from shop.access import Actor
from shop.errors import RequestError
from shop.models import CalendarFeed, Member
from shop.services.entry_links import hash_of
from shop.services.history import record

MOST = 50


@transaction.atomic
def make_feed(*, actor: Actor, title: str, now: datetime) -> tuple[CalendarFeed, str]:
    """Makes an address for a calendar; (feed, the secret of its address)."""
    if CalendarFeed.objects.filter(shop=actor.shop, revoked_at__isnull=True).count() >= MOST:
        raise RequestError(409, "too-many-calendars", n=MOST)
    secret = secrets.token_urlsafe(32)
    row = CalendarFeed(shop=actor.shop, title=title, token_hash=hash_of(secret), author=actor.member, made_at=now)
    row.clean_fields()
    row.save(force_insert=True)
    record(actor=actor, verb="calendar made", row=row, changes={"title": ["", row.title]})
    return row, secret


@transaction.atomic
def revoke_feed(*, actor: Actor, feed: CalendarFeed, now: datetime) -> None:
    """Revokes an address; one that was revoked before stays as it is."""
    if CalendarFeed.objects.filter(shop=actor.shop, pk=feed.pk, revoked_at__isnull=True).update(revoked_at=now):
        record(actor=actor, verb="calendar ended", row=feed, changes={"title": [feed.title, ""]})


def revoke_feeds_of(*, actor: Actor, member: Member, now: datetime) -> None:
    """Revokes the addresses that a member made and has seen."""
    CalendarFeed.objects.filter(shop=actor.shop, author=member, revoked_at__isnull=True).update(revoked_at=now)
