from django.conf import settings
from django.contrib.auth.hashers import make_password
from django.core.exceptions import ValidationError
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.base import utc
from shop.answers.people import EntryOut
from shop.api import sign_in
from shop.api.endpoint import Endpoint
from shop.api.public_address import address
from shop.errors import FieldError, RequestError, field_error
from shop.hashing import hashing
from shop.models import User
from shop.models.people import MemberRole
from shop.serializers.people import EntryIn, EntryTokenIn, ForgottenIn
from shop.services.entry_links import OpenedLink, come_in, open_entry
from shop.services.forgotten import ask_for_password
from shop.services.passwords import check_password


class EntryReading(Endpoint):
    """An entry link, read by its secret, which stands in the body because addresses are logged."""

    request_bodies = {"post": EntryTokenIn}
    responses = {"post": EntryOut}
    permissions = {"post": access.ANYONE}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def post(self, request: Request) -> Response:
        """Read what an entry link is for."""
        entry = open_entry(token=self.body(request)["token"], now=timezone.now())
        link, member = entry.link, entry.link.member
        answer = EntryOut(
            kind="invitation" if member is None else "password",
            shop=link.shop.name,
            email=entry.email,
            name="" if member is None else member.user.name,
            role=MemberRole(link.role if member is None else member.role),
            expires_at=utc(link.expires_at),
        )
        return Response(answer, headers={"Cache-Control": "no-store"})


class Entry(Endpoint):
    """An entry link, used. The person signs in afterwards, as everybody does."""

    request_bodies = {"post": EntryIn}
    responses = {"post": {204: None}}
    permissions = {"post": access.ANYONE}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def post(self, request: Request) -> Response:
        """Set name and password by an entry link."""
        body, now = self.body(request), timezone.now()
        entry = open_entry(token=body["token"], now=now)
        name = body.get("name", "")
        if entry.link.member is None and not name:
            raise field_error("/name", "missing")
        try:
            if entry.link.member is None:
                _prove_or_refuse(request, entry, name, body["password"])
            with hashing():
                come_in(token=body["token"], name=name, password=body["password"], proven=entry.has_account, now=now)
        except ValidationError as error:
            refusals = tuple(FieldError("/password", words=message) for message in error.messages)
            raise RequestError(400, "invalid", refusals) from None
        return Response(status=204)


def _prove_or_refuse(request: Request, entry: OpenedLink, name: str, password: str) -> None:
    """Checks the password of an invitation: that of the account, or a sound one for a new account.

    An unsound password is refused with the same words, after the same work and counted alike, whether or not the
    e-mail has an account: nobody learns of one without using the invitation up.
    """
    with sign_in.throttled(request, entry.email):
        if entry.has_account and entry.user is not None and entry.user.check_password(password):
            return
        if not entry.has_account:
            make_password(password)
        check_password(password, User(email=entry.email, name=name), entry.link.shop)
        if entry.has_account:
            raise field_error("/password", "password_of_account")


class Forgotten(Endpoint):
    """A forgotten password. The answer is the same, and as fast, whether or not anybody signs in with the e-mail."""

    request_bodies = {"post": ForgottenIn}
    responses = {"post": {204: None}}
    permissions = {"post": access.ANYONE}
    in_a_shop = False
    idempotency_key = False
    body_limit = 4 * 1024

    def post(self, request: Request) -> Response:
        """Ask for an e-mail with a link for a new password."""
        email = self.body(request)["email"]
        if not settings.MAIL_IS_SENT:
            raise RequestError(409, "no-password-by-mail")
        sign_in.count_request(request, email)
        ask_for_password(email=email, site=address(request, "/").rstrip("/"), now=timezone.now())
        return Response(status=204)
