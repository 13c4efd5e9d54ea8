"""Tokens of other programs: made by a manager in the name of a member, used, and revoked.

A secret has 256 random bits, which nobody can try out: a fast hash is enough, and every request looks it up by it.
"""

import secrets
from collections.abc import Sequence
from datetime import date, datetime, timedelta

from django.db import transaction
from django.db.models import Q

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import ApiToken, Member
from shop.queries.calendar import day_ends, shop_day
from shop.services.entry_links import hash_of
from shop.services.history import record

PREFIX = "kwt_"  # by which a secret that was written into a file by mistake is found
LONGEST = timedelta(days=366)
NOTED_EVERY = timedelta(minutes=1)
MOST = 50


@transaction.atomic
def make_token(
    *,
    actor: Actor,
    member: Member,
    title: str,
    areas: Sequence[str],
    may_write: bool,
    expires_on: date,
    now: datetime,
) -> tuple[ApiToken, str]:
    """Makes a token that works through `expires_on`, in the shop's zone; (token, its secret)."""
    today = shop_day(actor.shop, now)
    if not today <= expires_on <= today + LONGEST:
        raise field_error("/expires_on", "token_day")
    if ApiToken.objects.filter(shop=actor.shop, revoked_at__isnull=True).count() >= MOST:
        raise RequestError(409, "too-many-tokens", n=MOST)
    secret = PREFIX + secrets.token_urlsafe(32)
    row = ApiToken(
        shop=actor.shop,
        title=title,
        token_hash=hash_of(secret),
        member=member,
        author=actor.member,
        areas=sorted(set(areas)),
        may_write=may_write,
        made_at=now,
        expires_at=day_ends(actor.shop, expires_on),
    )
    row.clean_fields()
    row.save(force_insert=True)
    record(actor=actor, verb="access key made", row=row, changes={"title": ["", row.title]})
    return row, secret


@transaction.atomic
def revoke_token(*, actor: Actor, token: ApiToken, now: datetime) -> None:
    """Revokes a token; one that was revoked before stays as it is."""
    if ApiToken.objects.filter(shop=actor.shop, pk=token.pk, revoked_at__isnull=True).update(revoked_at=now):
        record(actor=actor, verb="access key ended", row=token, changes={"title": [token.title, ""]})


def revoke_tokens_around(*, actor: Actor, member: Member, now: datetime) -> None:
    """Revokes the tokens in a member's name and those they made, whose secrets they have seen."""
    tokens = ApiToken.objects.filter(Q(member=member) | Q(author=member), shop=actor.shop, revoked_at__isnull=True)
    tokens.update(revoked_at=now)


def token_of(*, secret: str, now: datetime) -> ApiToken | None:
    """The token in force with this secret."""
    tokens = ApiToken.objects.select_related("shop", "member__user")
    return tokens.filter(token_hash=hash_of(secret), revoked_at__isnull=True, expires_at__gt=now).first()


def note_use(*, token: ApiToken, now: datetime) -> None:
    """Notes that a token was used, at most once a minute: reading must not become writing."""
    if token.used_at is None or token.used_at <= now - NOTED_EVERY:
        ApiToken.objects.filter(pk=token.pk, revoked_at__isnull=True).update(used_at=now)
