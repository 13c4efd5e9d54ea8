from django.contrib.auth import authenticate, login, logout
from django.middleware.csrf import get_token
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access, sign_in
from shop.endpoint import Endpoint
from shop.models import Member
from shop.problems import Problem
from shop.serializers.people import SessionOut, SignIn


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
        sign_in.refuse_after_many_tries(request, given["email"])
        user = authenticate(request._request, username=given["email"].lower(), password=given["password"])
        if user is None:
            sign_in.count_wrong_try(request, given["email"])
            raise Problem(401, "wrong-sign-in")
        login(request._request, user)
        request.user = user
        return Response(_session(request), headers={"Cache-Control": "no-store"})

    def delete(self, request: Request) -> Response:
        logout(request._request)
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
