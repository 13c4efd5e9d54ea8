"""The people of a shop, and the links by which they come in."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.answers.mails import MailState
from shop.models.people import MemberRole

FactorAsked = Literal["nobody", "managers", "all"]
EntryKind = Literal["invitation", "password"]


class EntryMailOut(Answer, frozen=True):
    """The newest e-mail with a link for a person."""

    state: MailState
    words: str


class MemberOut(Answer, frozen=True):
    """A member of the shop."""

    id: UUID
    name: str
    email: Annotated[str, Meta(description="The e-mail with which the person signs in.")]
    role: Annotated[MemberRole, Meta(description="The role of the person in the shop.")]
    since: Annotated[Instant | None, Meta(description="The time at which they became a member; null: not recorded.")]
    signed_in_at: Annotated[
        Instant | None, Meta(description="The time of the last sign-in; null where there was none.")
    ]
    own: Annotated[bool, Meta(description="It is the person who asks.")]
    last_manager: Annotated[bool, Meta(description="The only manager, who can be neither removed nor given a role.")]
    second_factor: Annotated[bool, Meta(description="Their sign-in has a second factor.")]
    mail: Annotated[
        EntryMailOut | None, Meta(description="The e-mail with a link for a new password, of the last day; else null.")
    ]


class InvitationOut(Answer, frozen=True):
    """An invitation that is open."""

    id: UUID
    email: Annotated[str, Meta(description="The e-mail of the person who is invited.")]
    role: Annotated[MemberRole, Meta(description="The role that the person will have.")]
    expires_at: Annotated[Instant, Meta(description="The time after which the link no longer works.")]
    by: Annotated[str, Meta(description="The name of the manager who made it.")]
    mail: Annotated[EntryMailOut | None, Meta(description="The e-mail with its link; null where none was sent.")]


class PeopleOut(Answer, frozen=True):
    """The members of the shop by name, and the open invitations, newest first."""

    members: Annotated[list[MemberOut], Meta(description="In the order of their names.")]
    invitations: Annotated[list[InvitationOut], Meta(description="Those that are open, newest first.")]
    second_factor: Annotated[FactorAsked, Meta(description="The members of whom the shop requires a second factor.")]
    mail_is_sent: Annotated[bool, Meta(description="False where no mail server is set up: links are handed over.")]


class EntryLinkOut(Answer, frozen=True):
    """A link that was just made. Its address is shown once."""

    email: Annotated[str, Meta(description="The e-mail of the person whom it lets in.")]
    url: Annotated[
        str | None, Meta(description="The address; null in a repeated answer, and where the link was sent by e-mail.")
    ]
    expires_at: Annotated[Instant, Meta(description="The time after which the link no longer works.")]


class EntryOut(Answer, frozen=True):
    """An open link: the person and the shop that it is for."""

    kind: Annotated[EntryKind, Meta(description="An invitation, or a new password for a member.")]
    shop: Annotated[str, Meta(description="The name of the shop.")]
    email: Annotated[str, Meta(description="The e-mail with which the person will sign in.")]
    name: Annotated[str, Meta(description="The name of the member; empty in an invitation.")]
    role: Annotated[MemberRole, Meta(description="The role of the person in the shop.")]
    expires_at: Annotated[Instant, Meta(description="The time after which the link no longer works.")]
