"""The second factor of a person's sign-in."""

from typing import Annotated

from msgspec import Meta

from shop.answers.base import Answer, Instant
from shop.answers.people import FactorAsked


class SecondFactorOut(Answer, frozen=True):
    """Whether the person's sign-in has a second factor."""

    since: Annotated[Instant | None, Meta(description="The time at which it was switched on; null where it is off.")]
    recovery_codes: Annotated[int, Meta(description="The number of recovery codes that are left.")]
    asked_by: Annotated[list[str], Meta(description="The names of the person's shops that ask for it.")]


class AuthenticatorOut(Answer, frozen=True):
    """A new secret for an authenticator app, which is shown once."""

    secret: Annotated[str, Meta(description="The secret in base32, to type.")]
    url: Annotated[str, Meta(description="The secret as an otpauth address, which opens an authenticator app.")]
    size: Annotated[int, Meta(description="The width and height of the QR code in modules, with its quiet zone.")]
    path: Annotated[str, Meta(description="The dark modules of the QR code of `url` as the path of an SVG.")]


class RecoveryCodesOut(Answer, frozen=True):
    """The recovery codes, which are shown once."""

    codes: Annotated[list[str], Meta(description="Each signs in once in place of a code of the app.")]


class AskedFactorOut(Answer, frozen=True):
    """The members of whom the shop requires a second factor."""

    second_factor: Annotated[FactorAsked, Meta(description="The members of whom the shop requires a second factor.")]
