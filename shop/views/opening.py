from typing import Any
from zoneinfo import ZoneInfo

from django.core.exceptions import ValidationError
from django.http import Http404
from django.utils import timezone
from rest_framework.request import Request
from rest_framework.response import Response

from shop import access
from shop.answers.opening import LanguageOut, OpeningOut, PresetOut
from shop.answers.session import SessionOut
from shop.api import sign_in
from shop.api.endpoint import Endpoint
from shop.errors import FieldError, RequestError, field_error
from shop.hashing import hashing
from shop.models import Shop, User
from shop.rule_presets import PRESETS
from shop.serializers.opening import OpeningIn
from shop.services.opening import is_opening_code, open_workshop
from shop.services.passwords import check_password
from shop.views.session import session_answer
from shop.words import say
from shop.words.languages import spoken

FACTS = ("name", "address", "phone", "email", "registration", "currency", "zone", "language")


class Opening(Endpoint):
    """The first shop of an installation without one. Its code is printed where the server was started."""

    request_bodies = {"post": OpeningIn}
    responses = {"get": OpeningOut, "post": {201: SessionOut}}
    permissions = {"get": access.ANYONE, "post": access.ANYONE}
    in_a_shop = False
    idempotency_key = False
    body_limit = 16 * 1024

    def get(self, request: Request) -> Response:
        """Read the choices of the form that opens the first shop."""
        if Shop.objects.exists():
            raise Http404
        presets = [
            PresetOut(name=name, title=say(f"preset.{name}"), words=say(f"preset.{name}.for")) for name in PRESETS
        ]
        languages = [LanguageOut(tag=tag, title=title) for tag, title in spoken()]
        answer = OpeningOut(presets=presets, languages=languages)
        return Response(answer, headers={"Cache-Control": "no-store"})

    def post(self, request: Request) -> Response:
        """Open the first shop, and sign in its first manager."""
        if Shop.objects.exists():
            raise RequestError(409, "shop-exists")
        body = self.body(request)
        with sign_in.throttled(request, "the opening code"):
            if not is_opening_code(body["code"]):
                raise field_error("/code", "opening_code")
        manager = {"name": body["manager_name"], "email": body["manager_email"].lower(), "password": body["password"]}
        _check_password(manager, body)
        with hashing():
            _, member = open_workshop(
                code=body["code"],
                facts={name: body[name] for name in FACTS},
                manager=manager,
                preset=body["preset"],
                day=timezone.now().astimezone(ZoneInfo(body["zone"])).date(),
            )
        sign_in.begin(request, member.user)
        return Response(session_answer(request), status=201, headers={"Cache-Control": "no-store"})


def _check_password(manager: dict[str, str], body: dict[str, Any]) -> None:
    if manager["password"] != body["password_again"]:
        raise field_error("/password_again", "password_differs")
    try:
        user = User(name=manager["name"], email=manager["email"])
        check_password(manager["password"], user, Shop(name=body["name"]))
    except ValidationError as error:
        refusals = tuple(FieldError("/password", words=message) for message in error.messages)
        raise RequestError(400, "invalid", refusals) from None
