from django.contrib.auth import authenticate, login, logout, update_session_auth_hash
from django.core.exceptions import ValidationError
from django.middleware.csrf import get_token
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access, sign_in
from shop.endpoint import Endpoint
from shop.models import Member
from shop.problems import Problem, field_problem
from shop.serializers.people import PasswordIn, SessionOut, SignIn
from shop.services.people import change_password
from shop.services.sessions import end_sessions


class Session(Endpoint):
    """Who is signed in, and in which shops. GET also sets the CSRF cookie; POST signs in; DELETE signs out."""

    takes = {"post": SignIn}
    gives = {"get": SessionOut, "post": SessionOut, "delete": {204: None}}
    allows = {"get": access.ANYONE, "post": access.ANYONE, "delete": access.ANYONE}
    in_a_shop = False
    takes_a_key = False
    body_limit = 4 * 1024

    def get(self, request: Request) -> Response:
        get_token(request._request)
        return Response(_session(request), headers={"Cache-Control": "no-store"})

    def post(self, request: Request) -> Response:
        given = self.body(request)
        with sign_in.throttled(request, given["email"]):
            user = authenticate(request._request, username=given["email"].lower(), password=given["password"])
            if user is None:
                raise Problem(401, "wrong-sign-in")
        request._request.session.flush()  # the longest life of a session begins with its own sign-in
        login(request._request, user)
        request.user = user
        return Response(_session(request), headers={"Cache-Control": "no-store"})

    def delete(self, request: Request) -> Response:
        logout(request._request)
        return Response(status=204)


class Sessions(Endpoint):
    """The person's sign-ins on all devices. DELETE signs out everywhere, here as well."""

    gives = {"delete": {204: None}}
    allows = {"delete": access.SIGNED_IN}
    in_a_shop = False

    def delete(self, request: Request) -> Response:
        end_sessions(user=self.person.pk)
        logout(request._request)
        return Response(status=204)


class Password(Endpoint):
    """The person's own password. A new one ends the sign-ins on other devices."""

    takes = {"put": PasswordIn}
    gives = {"put": {204: None}}
    allows = {"put": access.SIGNED_IN}
    in_a_shop = False

    def put(self, request: Request) -> Response:
        given, user, session = self.body(request), self.person, request._request.session
        with sign_in.throttled(request, user.email):
            if not user.check_password(given["current_password"]):
                raise field_problem("/current_password", "wrong_password")
        try:
            change_password(user=user, password=given["new_password"], session=session.session_key)
        except ValidationError as error:
            refusals = tuple(("/new_password", message) for message in error.messages)
            raise Problem(400, "invalid", errors=refusals) from None
        update_session_auth_hash(request._request, user)
        return Response(status=204)


def _session(request: Request) -> dict[str, object]:
    user = request.user
    if user is None or not user.is_authenticated:
        return {"signed_in": False, "user": None, "shops": []}
    members = Member.objects.filter(user_id=user.pk, active=True).select_related("shop").order_by("shop__name")
    return {
        "signed_in": True,
        "user": {"name": user.name, "email": user.email},
        "shops": [
            {
                "slug": member.shop.slug,
                "name": member.shop.name,
                "currency": member.shop.currency,
                "exponent": member.shop.exponent,
                "zone": member.shop.zone,
                "units": member.shop.units,
                "role": member.role,
                "member": str(member.pk),
            }
            for member in members
        ],
    }
