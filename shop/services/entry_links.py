"""Links by which a person comes in: an invitation, or a new password. Each works once; only its hash is stored."""

import hashlib
import secrets
from dataclasses import dataclass
from datetime import datetime, timedelta
from typing import Any

from django.db import transaction
from django.db.models import Q

from shop.access import Actor
from shop.errors import RequestError, field_error
from shop.models import EntryLink, Member, User
from shop.models.entry_links import INVITATION_LASTS, PASSWORD_LINK_LASTS
from shop.services.history import record
from shop.services.passwords import check_password
from shop.services.sessions import end_sessions

FORGOTTEN_AN_HOUR = 4
Kind = EntryLink.Kind


@dataclass(frozen=True, slots=True)
class OpenedLink:
    """An open link with the person who comes in; `user` is None for a person who has no account.

    `has_account` says that an account is not this shop's alone: its password stays, and has to be typed.
    """

    link: EntryLink
    email: str
    user: User | None
    has_account: bool


@transaction.atomic
def invite(*, actor: Actor, email: str, role: str, now: datetime) -> tuple[EntryLink, str]:
    """Invites a person, in place of an earlier invitation; (link, its secret). Refused for a member of the shop."""
    email = email.lower()
    if Member.objects.filter(shop=actor.shop, user__email=email, active=True).exists():
        raise field_error("/email", "member_already")
    _withdraw(actor, Q(kind=Kind.INVITATION, email=email), now)
    link, token = _new_link(actor, now, INVITATION_LASTS, kind=Kind.INVITATION, email=email, role=role)
    record(actor=actor, verb="invited", row=link, changes={"email": ["", email], "role": ["", role]})
    return link, token


@transaction.atomic
def make_password_link(*, actor: Actor, member: Member, now: datetime) -> tuple[EntryLink, str]:
    """Makes a link for a new password, in place of earlier ones; (link, its secret).

    Refused for a person whom another shop knows too: the password would open that shop as well.
    """
    if not member.active:
        raise RequestError(409, "not-a-member")
    if is_known_elsewhere(actor, member.user):
        raise RequestError(409, "password-of-several-workshops")
    _withdraw(actor, Q(kind=Kind.PASSWORD, member=member), now)
    link, token = _new_link(actor, now, PASSWORD_LINK_LASTS, kind=Kind.PASSWORD, member=member)
    record(actor=actor, verb="password link made", row=member)
    return link, token


@transaction.atomic
def make_forgotten_link(*, member: Member, now: datetime) -> tuple[EntryLink, str] | None:
    """Makes a link for a person who forgot the password, in place of earlier ones; (link, its secret).

    It goes to the person's own e-mail only, so it also opens an account that several shops know. None after
    `FORGOTTEN_AN_HOUR` links within an hour: a stranger must not fill a mailbox.
    """
    actor = Actor(shop=member.shop, member=None, channel="link")
    links = EntryLink.objects.filter(shop=member.shop, member=member, kind=Kind.FORGOTTEN)
    if links.filter(made_at__gt=now - timedelta(hours=1)).count() >= FORGOTTEN_AN_HOUR:
        return None
    _withdraw(actor, Q(kind=Kind.FORGOTTEN, member=member), now)
    link, token = _new_link(actor, now, PASSWORD_LINK_LASTS, kind=Kind.FORGOTTEN, member=member)
    record(actor=actor, verb="password link asked", row=member)
    return link, token


@transaction.atomic
def withdraw_invitation(*, actor: Actor, link: EntryLink, now: datetime) -> None:
    """Withdraws an invitation that is open; one that has ended stays as it is."""
    if _withdraw(actor, Q(pk=link.pk), now):
        record(actor=actor, verb="invitation withdrawn", row=link, changes={"email": [link.email, ""]})


def withdraw_links_around(*, actor: Actor, member: Member, now: datetime) -> None:
    """Withdraws the open links that a member made or was given: a person who leaves may have kept one."""
    _withdraw(actor, Q(author=member) | Q(member=member), now)


def is_known_elsewhere(actor: Actor, user: User) -> bool:
    """Returns whether the person is or was a member of another shop."""
    return Member.objects.filter(user=user).exclude(shop=actor.shop).exists()


def open_entry(*, token: str, now: datetime, locked: bool = False) -> OpenedLink:
    """The open link with this secret. Refuses one that is unknown, used, withdrawn or too old, always alike."""
    links = EntryLink.objects.select_related("shop", "member__user")
    link = (links.select_for_update(of=("self",)) if locked else links).filter(token_hash=hash_of(token)).first()
    if link is None or link.used_at or link.withdrawn_at or link.expires_at <= now:
        raise RequestError(410, "entry-link-closed")
    if link.member is not None:
        elsewhere = is_known_elsewhere(Actor(shop=link.shop, member=None), link.member.user)
        if not link.member.active or (elsewhere and link.kind != Kind.FORGOTTEN):
            raise RequestError(410, "entry-link-closed")
        return OpenedLink(link, link.member.user.email, link.member.user, has_account=False)
    user = User.objects.filter(email=link.email).first()
    has_account = user is not None and is_known_elsewhere(Actor(shop=link.shop, member=None), user)
    return OpenedLink(link, link.email, user, has_account=has_account)


@transaction.atomic
def come_in(*, token: str, name: str, password: str, proven: bool, now: datetime) -> Member:
    """Uses the link: sets name and password, and makes an invited person a member. All earlier sign-ins end.

    Of a person with an account elsewhere nothing is changed but the membership, and `proven` says that the account's
    password was typed. Raises ValidationError for a refused password.
    """
    entry = open_entry(token=token, now=now, locked=True)
    if entry.has_account and not proven:
        raise RequestError(410, "entry-link-closed")
    user = entry.user or User(email=entry.email)
    if not entry.has_account:
        if entry.link.kind == Kind.INVITATION:
            user.name = name
        check_password(password, user, entry.link.shop)
        user.set_password(password)
        user.full_clean()
        user.save()
        end_sessions(user=user.pk)
    entry.link.used_at = now
    entry.link.save(update_fields=["used_at"])
    member: Member | None = entry.link.member
    if member is None:
        return _join(entry.link, user)
    for row in Member.objects.filter(user=user, active=True).select_related("shop"):
        record(actor=Actor(shop=row.shop, member=row, channel="link"), verb="password changed", row=row)
    return member


def _join(link: EntryLink, user: User) -> Member:
    member: Member = Member.objects.filter(shop=link.shop, user=user).first() or Member(
        shop=link.shop, user=user, active=False
    )
    changes: dict[str, list[Any]] = {"active": [member.active, True], "role": [member.role or None, link.role]}
    member.role, member.active = link.role, True
    member.clean_fields()
    member.save()
    record(actor=Actor(shop=link.shop, member=member, channel="link"), verb="joined", row=member, changes=changes)
    return member


def _new_link(actor: Actor, now: datetime, lasts: timedelta, **fields: Any) -> tuple[EntryLink, str]:
    token = secrets.token_urlsafe(32)
    link = EntryLink(
        shop=actor.shop,
        author=actor.member,
        token_hash=hash_of(token),
        made_at=now,
        expires_at=now + lasts,
        **fields,
    )
    link.clean_fields(exclude={"shop", "author", "member"})
    link.save(force_insert=True)
    return link, token


def _withdraw(actor: Actor, which: Q, now: datetime) -> int:
    links = EntryLink.objects.filter(which, shop=actor.shop, used_at__isnull=True, withdrawn_at__isnull=True)
    return links.update(withdrawn_at=now)


def hash_of(token: str) -> str:
    """The hash by which a link is stored and looked up."""
    return hashlib.sha256(token.encode()).hexdigest()
