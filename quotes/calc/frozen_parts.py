"""Types of the parts of a frozen text that have had one shape in every form: who sent what to whom.

The rest is plain data (`FrozenContent`): what a price shows differs by the form, and older texts lack fields. A part's
type checks those who write it and those who read it, and changes no byte.
"""

from typing import NotRequired, TypedDict


class FrozenHouse(TypedDict):
    """The workshop as it was when the text was sent. Older texts lack what was not asked for yet."""

    name: str
    phone: str
    currency: str
    exponent: int
    zone: str
    address: NotRequired[str]
    email: NotRequired[str]
    registration: NotRequired[str]
    tax_number: NotRequired[str]


class FrozenQuote(TypedDict):
    """The quote's number, its version (`issue`) and its times; `valid_day` is a day in the workshop's zone."""

    number: str
    issue: int
    sent_at: str
    valid_until: str
    valid_day: str


class FrozenCustomer(TypedDict):
    """The customer. Older texts lack telephone and address."""

    id: str
    name: str
    phone: NotRequired[str]
    address: NotRequired[str]


class FrozenVehicle(TypedDict):
    """The vehicle, with attributes as pairs, as their names may be in any alphabet and keys may not."""

    id: str
    title: str
    vin_tail: str
    plate: str
    attributes: list[list[str]]
