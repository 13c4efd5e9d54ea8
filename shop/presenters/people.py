from collections.abc import Iterable
from typing import Any

from shop.access import Actor
from shop.answers.base import utc, utc_or_none
from shop.answers.people import InvitationOut, MemberOut, PeopleOut
from shop.models import EntryLink
from shop.models.people import MemberRole


def people_answer(members: Iterable[Any], invitations: Iterable[EntryLink], actor: Actor) -> PeopleOut:
    """`members` are rows of `access.members`."""
    return PeopleOut(
        members=[member_answer(member, actor) for member in members],
        invitations=[_invitation(link) for link in invitations],
    )


def member_answer(member: Any, actor: Actor) -> MemberOut:
    return MemberOut(
        id=member.pk,
        name=member.user.name,
        email=member.user.email,
        role=MemberRole(member.role),
        since=utc_or_none(member.since),
        signed_in_at=utc_or_none(member.user.last_login),
        own=actor.member is not None and member.pk == actor.member.pk,
        last_manager=member.role == MemberRole.MANAGER and member.managers == 1,
    )


def _invitation(link: EntryLink) -> InvitationOut:
    return InvitationOut(
        id=link.pk,
        email=link.email,
        role=MemberRole(link.role),
        expires_at=utc(link.expires_at),
        by=link.author.user.name,
    )
