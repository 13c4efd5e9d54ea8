from uuid import UUID

from django.conf import settings
from django.contrib.auth.hashers import check_password
from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.pins import PinOut
from shop.answers.session import SessionOut
from shop.api import sign_in
from shop.api.components import list_of
from shop.api.endpoint import Endpoint
from shop.errors import RequestError, field_error
from shop.presenters.pins import pin_answer
from shop.rows import uuid7
from shop.serializers.people import NewPinIn, PinIn
from shop.services import pins
from shop.services.entry_links import hash_of
from shop.views.session import session_answer

NO_STORE = {"Cache-Control": "no-store"}


class PinSession(Endpoint):
    """A change of person on an enrolled device: six digits in place of the password, in place of who was here."""

    request_bodies = {"post": PinIn}
    responses = {"post": SessionOut}
    permissions = {"post": access.ANYONE}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def post(self, request: Request) -> Response:
        """Sign in by the PIN of this device."""
        body, device = self.body(request), sign_in.device_of(request)
        with sign_in.throttled(request, f"pin {uuid7()}"):  # the address has a limit; the PIN has its own
            row = pins.count_pin_try(id=body["id"], device=device, now=timezone.now())
            if not check_password(body["pin"], row.pin_hash):
                sign_in.log_failure(request, row.user)
                raise pins.refuse_wrong_pin(row)
        pins.forget_wrong_tries(user=row.user, device=device)
        sign_in.begin(request, row.user, by=sign_in.BY_PIN)
        return Response(session_answer(request), headers=NO_STORE)


class Pins(Endpoint):
    """The person's PINs. POST sets one on the device that asks, which from then on is known by a cookie."""

    request_bodies = {"post": NewPinIn}
    responses = {"get": list_of(PinOut), "post": {201: PinOut}}
    permissions = {"get": access.SIGNED_IN, "post": access.SIGNED_IN}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def get(self, request: Request) -> Response:
        """List the person's PINs on all devices."""
        here = hash_of(sign_in.device_of(request))
        items = [pin_answer(row, here) for row in pins.pins_of(user=self.person, now=timezone.now())]
        return Response({"items": items}, headers=NO_STORE)

    def post(self, request: Request) -> Response:
        """Set a PIN on this device."""
        body = self.body(request)
        if sign_in.began_by_pin(request):
            raise RequestError(409, "pin-needs-password")
        pins.check_pin(body["pin"])
        with sign_in.throttled(request, self.person.email):  # an open screen is not enough
            if not self.person.check_password(body["password"]):
                raise field_error("/password", "wrong_password")
            hashed = pins.pin_hash(body["pin"])
        row, device = pins.set_pin(
            user=self.person,
            hashed=hashed,
            device=sign_in.device_of(request),
            agent=request.headers.get("User-Agent", ""),
            now=timezone.now(),
        )
        answer = Response(pin_answer(row, row.device_hash), status=201, headers=NO_STORE)
        answer.set_cookie(
            settings.DEVICE_COOKIE_NAME,
            device,
            max_age=settings.PIN_DAYS * 24 * 60 * 60,
            secure=settings.SECURE_COOKIES,
            httponly=True,
            samesite="Strict",
        )
        return answer


class OnePin(Endpoint):
    """One of the person's PINs, on this device or another. DELETE ends it."""

    responses = {"delete": {204: None}}
    permissions = {"delete": access.SIGNED_IN}
    in_a_shop = False

    def delete(self, request: Request, id: UUID) -> Response:
        """End one PIN."""
        if not pins.end_pin(user=self.person, id=id):
            raise Http404
        return Response(status=204)
