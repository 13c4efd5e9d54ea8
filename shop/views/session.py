from typing import cast
from uuid import UUID

from django.conf import settings
from django.contrib.auth import authenticate, logout, update_session_auth_hash
from django.core.exceptions import ValidationError
from django.http import Http404
from django.middleware.csrf import get_token
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.session import OwnShopOut, PersonOut, SessionOut, SignInOut, Units
from shop.api import sign_in
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.errors import FieldError, RequestError, field_error
from shop.hashing import hashing
from shop.models import Member, Shop, User
from shop.models.people import MemberRole
from shop.presenters.session import sign_in_answer
from shop.serializers.people import PasswordIn, SignIn
from shop.services.people import change_password
from shop.services.pins import forget_wrong_tries, pins_on
from shop.services.second_factor import prove
from shop.services.sessions import end_session, end_sessions, sessions_of
from shop.sessions import session_id
from shop.words.languages import usable


class Session(Endpoint):
    """The person who is signed in, with their shops. GET also sets the CSRF cookie; POST signs in; DELETE signs out."""

    request_bodies = {"post": SignIn}
    responses = {"get": SessionOut, "post": SessionOut, "delete": {204: None}}
    permissions = {"get": access.ANYONE, "post": access.ANYONE, "delete": access.ANYONE}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def get(self, request: Request) -> Response:
        """Read who is signed in."""
        get_token(request._request)
        return Response(session_answer(request), headers={"Cache-Control": "no-store"})

    def post(self, request: Request) -> Response:
        """Sign in."""
        body = self.body(request)
        with sign_in.throttled(request, body["email"]):
            user = authenticate(request._request, username=body["email"].lower(), password=body["password"])
            if user is None:
                raise RequestError(401, "wrong-sign-in")
            if user.second_factor_since is not None:
                _prove(user, body.get("code", ""))
        sign_in.begin(request, user)
        if device := sign_in.device_of(request):
            forget_wrong_tries(user=user, device=device)
        return Response(session_answer(request), headers={"Cache-Control": "no-store"})

    def delete(self, request: Request) -> Response:
        """Sign out."""
        logout(request._request)
        return Response(status=204)


class Sessions(Endpoint):
    """The person's sign-ins on all devices, newest first. DELETE signs out everywhere, here as well."""

    responses = {"get": list_of(SignInOut), "delete": {204: None}}
    permissions = {"get": access.SIGNED_IN, "delete": access.SIGNED_IN}
    in_a_shop = False

    def get(self, request: Request) -> Response:
        """List the person's sign-ins."""
        here = request._request.session.session_key
        rows = sessions_of(user=self.person.pk, now=timezone.now())
        items = [sign_in_answer(row, here) for row in rows]
        return Response({"items": items}, headers={"Cache-Control": "no-store"})

    def delete(self, request: Request) -> Response:
        """Sign out on every device, and end the PINs."""
        end_sessions(user=self.person.pk)
        logout(request._request)
        return Response(status=204)


class OneSession(Endpoint):
    """One of the person's sign-ins. DELETE ends it, also the one that asks."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.SIGNED_IN}
    in_a_shop = False

    def delete(self, request: Request, id: UUID) -> Response:
        """End one sign-in."""
        if not end_session(user=self.person.pk, id=id):
            raise Http404
        if session_id(str(request._request.session.session_key)) == id:
            logout(request._request)
        return Response(status=204)


class Password(Endpoint):
    """The person's own password. A new one ends the sign-ins on other devices."""

    request_bodies = {"put": PasswordIn}
    responses = {"put": {204: None}}
    permissions = {"put": access.SIGNED_IN}
    in_a_shop = False

    def put(self, request: Request) -> Response:
        """Change one's own password."""
        body, user, session = self.body(request), self.person, request._request.session
        with sign_in.throttled(request, user.email):
            if not user.check_password(body["current_password"]):
                raise field_error("/current_password", "wrong_password")
        try:
            with hashing():
                change_password(user=user, password=body["new_password"], session=session.session_key)
        except ValidationError as error:
            refusals = tuple(FieldError("/new_password", words=message) for message in error.messages)
            raise RequestError(400, "invalid", refusals) from None
        update_session_auth_hash(request._request, user)
        return Response(status=204)


def _prove(user: User, code: str) -> None:
    """401 without a right code. It counts as a wrong try, so that the password is not guessed any faster."""
    if not code:
        raise RequestError(401, "second-factor-needed")
    with sign_in.counted_codes(user):
        if not prove(user=user, code=code, now=timezone.now()):
            raise RequestError(401, "wrong-code")


def session_answer(request: Request) -> SessionOut:
    """The person who is signed in, with their shops; whether there is a shop at all is read for nobody else."""
    user, device = request.user, sign_in.device_of(request)
    pins = pins_on(device=device, now=timezone.now()) if device else []
    if user is None or not user.is_authenticated:
        return SessionOut(
            signed_in=False,
            user=None,
            shops=[],
            pins=pins,
            to_open=not Shop.objects.exists(),
            mail_is_sent=settings.MAIL_IS_SENT,
        )
    return SessionOut(
        signed_in=True,
        user=PersonOut(name=user.name, email=user.email),
        shops=[_own_shop(member) for member in access.memberships(user.pk)],
        pins=pins,
        to_open=False,
        mail_is_sent=settings.MAIL_IS_SENT,
    )


def _own_shop(member: Member) -> OwnShopOut:
    return OwnShopOut(
        slug=member.shop.slug,
        name=member.shop.name,
        currency=member.shop.currency,
        exponent=member.shop.exponent,
        zone=member.shop.zone,
        language=usable(member.language, member.shop.language),
        units=cast(Units, member.shop.units),
        second_factor_missing=member.needs_second_factor and member.user.second_factor_since is None,
        role=MemberRole(member.role),
        member=member.pk,
    )
