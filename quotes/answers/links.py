"""Links: a recipient's way to a quote."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant


class LinkOut(Answer, frozen=True):
    """A link without its address, which was in its first answer only."""

    id: UUID
    recipient: str
    made_at: Annotated[Instant, Meta(description="The time at which it was made.")]
    expires_at: Annotated[
        Instant | None,
        Meta(description="The time at which it expires; null while its job is open, until 30 days after the end."),
    ]
    revoked_at: Annotated[
        Instant | None, Meta(description="The time at which it was cancelled; null for a link that works.")
    ]


class NewLinkOut(Answer, frozen=True):
    """A link that was made just now."""

    id: UUID
    recipient: str
    expires_at: Annotated[
        Instant | None,
        Meta(description="The time at which it expires; null while its job is open, until 30 days after the end."),
    ]
    url: Annotated[str | None, Meta(description="The address for the recipient; null in the answer to a repeat.")]
    message: Annotated[
        str | None,
        Meta(description="Words to send with the address in it, in the customer's language; null where it is."),
    ]
