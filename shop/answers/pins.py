"""The PINs by which a person comes in on enrolled devices."""

from typing import Annotated
from uuid import UUID

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.answers.session import Device


class PinOut(Answer, frozen=True):
    """A person's PIN on one device. The PIN itself is told nobody."""

    id: UUID
    here: Annotated[bool, Meta(description="It is of the device that asks.")]
    device: Annotated[Device, Meta(description="The kind of device.")]
    set_at: Annotated[Instant, Meta(description="The time at which it was set.")]
    ends_at: Annotated[Instant, Meta(description="The time from which it no longer works.")]
    used_up: Annotated[bool, Meta(description="Five wrong tries: it works again after the password was typed there.")]
