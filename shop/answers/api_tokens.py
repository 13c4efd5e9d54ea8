"""The access keys (API tokens) of other programs."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.models.api_tokens import TokenArea
from shop.models.people import MemberRole


class TokenOut(Answer, frozen=True):
    """A token that has not been revoked. Its secret is shown once, when it is made."""

    id: UUID
    title: Annotated[str, Meta(description="The name of the program that uses it.")]
    person: Annotated[str, Meta(description="The name of the member in whose name the program acts.")]
    role: Annotated[MemberRole, Meta(description="The role of that member, which the program has too.")]
    areas: Annotated[list[TokenArea], Meta(description="The parts of the interface that it opens.")]
    may_write: Annotated[bool, Meta(description="Whether it may change something; else it only reads.")]
    by: Annotated[str, Meta(description="The name of the manager who made it.")]
    made_at: Annotated[Instant, Meta(description="The time at which it was made.")]
    expires_at: Annotated[Instant, Meta(description="The time from which it no longer works.")]
    expired: Annotated[bool, Meta(description="Whether that time is over.")]
    used_at: Annotated[
        Instant | None, Meta(description="The time of its last use, to the minute; null where there was none.")
    ]


class TokensOut(Answer, frozen=True):
    """The tokens that have not been revoked, newest first."""

    items: list[TokenOut]


class NewTokenOut(Answer, frozen=True):
    """A token that was just made, with its secret."""

    token: Annotated[TokenOut, Meta(description="The token, as the list shows it.")]
    secret: Annotated[str | None, Meta(description="The secret; null in a repeated answer.")]
