from collections.abc import Iterable, Mapping
from datetime import datetime
from typing import Any, cast
from uuid import UUID

from shop.access import Actor
from shop.answers.base import utc, utc_or_none
from shop.answers.people import EntryMailOut, FactorAsked, InvitationOut, MemberOut, PeopleOut
from shop.models import EntryLink, Outbox, Shop
from shop.models.people import MemberRole
from shop.presenters.mails import mail_state, state_words
from shop.queries.outbox import is_unsure
from shop.words import say

Mails = Mapping[UUID, Outbox]


def people_answer(
    members: Iterable[Any],
    invitations: Iterable[EntryLink],
    mails: Mails,
    actor: Actor,
    now: datetime,
    *,
    is_sent: bool,
) -> PeopleOut:
    """`members` are rows of `access.members`, `mails` those of `access.entry_mails`; `is_sent`: there is a server."""
    return PeopleOut(
        members=[member_answer(member, mails, actor, now) for member in members],
        invitations=[_invitation(link, mails, actor.shop, now) for link in invitations],
        second_factor=cast(FactorAsked, actor.shop.second_factor),
        mail_is_sent=is_sent,
    )


def member_answer(member: Any, mails: Mails, actor: Actor, now: datetime) -> MemberOut:
    return MemberOut(
        id=member.pk,
        name=member.user.name,
        email=member.user.email,
        role=MemberRole(member.role),
        since=utc_or_none(member.since),
        signed_in_at=utc_or_none(member.user.last_login),
        own=actor.member is not None and member.pk == actor.member.pk,
        last_manager=member.role == MemberRole.MANAGER and member.managers == 1,
        second_factor=member.user.second_factor_since is not None,
        mail=_mail(mails.get(member.pk), actor.shop, now),
    )


def _invitation(link: EntryLink, mails: Mails, shop: Shop, now: datetime) -> InvitationOut:
    return InvitationOut(
        id=link.pk,
        email=link.email,
        role=MemberRole(link.role),
        expires_at=utc(link.expires_at),
        by=link.author.user.name if link.author else "",
        mail=_mail(mails.get(link.pk), shop, now),
    )


def _mail(row: Outbox | None, shop: Shop, now: datetime) -> EntryMailOut | None:
    if row is None:
        return None
    words = say("entry.mail_unsure") if is_unsure(row, now) else state_words(row, shop, now)
    return EntryMailOut(state=mail_state(row, now), words=words)
