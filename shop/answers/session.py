"""The person who is signed in, and their other sign-ins."""

from typing import Annotated, Literal
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.models.people import MemberRole

Device = Literal["phone", "computer", "unknown"]
Units = Literal["metric", "imperial"]


class SignInOut(Answer, frozen=True):
    """A sign-in on one device."""

    id: UUID
    here: Annotated[bool, Meta(description="It is the one that asks.")]
    device: Annotated[Device, Meta(description="The kind of device.")]
    started_at: Annotated[Instant, Meta(description="The time at which the person signed in.")]
    ends_at: Annotated[Instant, Meta(description="Unless something is changed before.")]


class PersonOut(Answer, frozen=True):
    """The person who is signed in."""

    name: str
    email: str


class OwnShopOut(Answer, frozen=True):
    """A shop that the person works in."""

    slug: Annotated[str, Meta(description="The shop in addresses.")]
    name: Annotated[str, Meta(description="The name of the shop.")]
    currency: Annotated[str, Meta(description="Three letters (ISO 4217).")]
    exponent: Annotated[int, Meta(description="The decimal places of the currency.")]
    zone: Annotated[str, Meta(description="The shop's time zone by its IANA name.")]
    language: Annotated[str, Meta(description="In which the person reads the shop's screens, as a tag of BCP 47.")]
    second_factor_missing: Annotated[
        bool,
        Meta(description="The shop asks for a second factor, which this person has not switched on."),
    ]
    units: Annotated[Units, Meta(description="The units in which the shop measures.")]
    role: Annotated[MemberRole, Meta(description="The role of the person in it.")]
    member: Annotated[UUID, Meta(description="The id of the person as a member of it.")]


class SessionOut(Answer, frozen=True):
    """The person who is signed in, with their shops."""

    signed_in: Annotated[bool, Meta(description="Somebody is signed in.")]
    user: Annotated[PersonOut | None, Meta(description="Null where nobody is.")]
    shops: Annotated[list[OwnShopOut], Meta(description="Those that the person works in.")]
    pins: Annotated[list[UUID], Meta(description="The PINs of everybody on this device: those that have not ended.")]
    to_open: Annotated[bool, Meta(description="There is no shop yet: the first one is to be opened.")]
    mail_is_sent: Annotated[
        bool, Meta(description="A mail server is set up: a forgotten password is replaced by e-mail.")
    ]
