from typing import cast
from uuid import UUID

from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.base import utc_or_none
from shop.answers.people import FactorAsked
from shop.answers.second_factor import AskedFactorOut, AuthenticatorOut, RecoveryCodesOut, SecondFactorOut
from shop.api import sign_in
from shop.api.endpoint import Endpoint
from shop.errors import field_error
from shop.presenters.second_factor import authenticator_answer
from shop.serializers.people import AskedFactorIn, CodeIn, OwnPasswordIn
from shop.services import second_factor
from shop.services.one_time_codes import as_typed

NO_STORE = {"Cache-Control": "no-store"}


class SecondFactor(Endpoint):
    """The second factor of the person's own sign-in. POST makes a secret, which counts once a code confirms it."""

    request_bodies = {"post": OwnPasswordIn}
    responses = {"get": SecondFactorOut, "post": AuthenticatorOut}
    permissions = {"get": access.SIGNED_IN, "post": access.SIGNED_IN}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def get(self, request: Request) -> Response:
        """Read whether the person's sign-in has a second factor."""
        members = access.memberships(self.person.pk)
        answer = SecondFactorOut(
            since=utc_or_none(self.person.second_factor_since),
            recovery_codes=second_factor.recovery_codes_left(self.person),
            asked_by=[member.shop.name for member in members if member.needs_second_factor],
        )
        return Response(answer, headers=NO_STORE)

    def post(self, request: Request) -> Response:
        """Make a secret for an authenticator app."""
        _check_password(self, request)
        secret = as_typed(second_factor.begin(user=self.person))
        return Response(authenticator_answer(secret, self.person.email), headers=NO_STORE)


class Confirmation(Endpoint):
    """The first code of the authenticator app, which switches the second factor on."""

    request_bodies = {"post": CodeIn}
    responses = {"post": RecoveryCodesOut}
    permissions = {"post": access.SIGNED_IN}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def post(self, request: Request) -> Response:
        """Switch the second factor on."""
        code = self.body(request)["code"]
        with sign_in.counted_codes(self.person):
            codes = second_factor.confirm(user=self.person, code=code, now=timezone.now())
        return Response(RecoveryCodesOut(codes=codes), headers=NO_STORE)


class SwitchedOff(Endpoint):
    """The end of the person's own second factor."""

    request_bodies = {"post": OwnPasswordIn}
    responses = {"post": {204: None}}
    permissions = {"post": access.SIGNED_IN}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def post(self, request: Request) -> Response:
        """Switch the second factor off."""
        _check_password(self, request)
        second_factor.switch_off(user=self.person)
        return Response(status=204)


class SecondFactorOfPerson(Endpoint):
    """The second factor of a member. DELETE switches it off, for somebody who has lost the phone and the codes."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.OFFICE}

    def delete(self, request: Request, slug: str, id: UUID) -> Response:
        """Switch the second factor of a member off."""
        second_factor.switch_off_for(actor=self.actor, member=access.member(self.actor, id))
        return Response(status=204)


class AskedFactor(Endpoint):
    """The members of whom the shop requires a second factor. A member without one gets 403 until they switch one on."""

    request_bodies = {"put": AskedFactorIn}
    responses = {"put": AskedFactorOut}
    permissions = {"put": access.OFFICE}

    def put(self, request: Request, slug: str) -> Response:
        """Set who must have a second factor."""
        shop = second_factor.ask_of(actor=self.actor, whom=self.body(request)["second_factor"])
        return Response(AskedFactorOut(second_factor=cast(FactorAsked, shop.second_factor)))


def _check_password(view: Endpoint, request: Request) -> None:
    """An open screen is not enough: the person types the password."""
    with sign_in.throttled(request, view.person.email):
        if not view.person.check_password(view.body(request)["password"]):
            raise field_error("/password", "wrong_password")
