"""The person who is signed in, and their other sign-ins."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.models.people import MemberRole

Device = Literal["phone", "computer", "unknown"]


class SignInOut(Answer, frozen=True):
    """A sign-in on one device."""

    id: UUID
    here: Annotated[bool, Meta(description="It is the one that asks.")]
    device: Device
    started_at: Instant
    ends_at: Annotated[Instant, Meta(description="Unless something is changed before.")]


class PersonOut(Answer, frozen=True):
    """The person who is signed in."""

    name: str
    email: str


class OwnShopOut(Answer, frozen=True):
    """A shop that the person works in."""

    slug: str
    name: str
    currency: Annotated[str, Meta(description="Three letters (ISO 4217).")]
    exponent: Annotated[int, Meta(description="The decimal places of the currency.")]
    zone: Annotated[str, Meta(description="The shop's time zone by its IANA name.")]
    units: str
    role: MemberRole
    member: UUID


class SessionOut(Answer, frozen=True):
    """The person who is signed in, with their shops."""

    signed_in: bool
    user: PersonOut | None
    shops: list[OwnShopOut]
