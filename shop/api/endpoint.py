"""The base of every API view: one class a URL.

A subclass declares, for each method, the serializer of the request body, the responses, the roles that may use it and
the query parameters. The same attributes drive requests and OpenAPI. A method without roles fails at import.
`self.actor` is the signed-in person as a member of the shop. A POST is idempotent: the same Idempotency-Key gives the
stored answer.
"""

import hashlib
from collections.abc import Callable, Mapping
from datetime import datetime
from functools import wraps
from typing import Any, ClassVar
from urllib.parse import urlsplit
from uuid import UUID

import orjson
from django.conf import settings
from django.core.exceptions import ValidationError as ModelInvalid
from django.utils import timezone
from rest_framework.exceptions import MethodNotAllowed, NotFound
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.serializers import Serializer
from rest_framework.views import APIView

from shop import access
from shop.answers.base import Answer
from shop.api.bearer import check_reach, token_of_request
from shop.api.params import parse_whole
from shop.api.parsers import JSONBody
from shop.api.query_parameters import OF_PAGES, Pages, Query
from shop.api.sign_in import began_by_pin
from shop.encoding import encode
from shop.errors import FieldError, RequestError, field_error
from shop.serializers.json_types import unknown_fields
from shop.services import commands, pins
from shop.storable import is_text
from shop.words.languages import speak

RequestBody = type[Serializer[Any]] | None
AnswerType = RequestBody | type[Answer]
AnswerData = Answer | dict[str, Any]
Responses = AnswerType | type[bytes] | Mapping[int, AnswerType]


class Endpoint(APIView):
    request_bodies: ClassVar[Mapping[str, RequestBody]] = {}
    responses: ClassVar[Mapping[str, Responses]] = {}
    permissions: ClassVar[Mapping[str, frozenset[str]]] = {}
    query_parameters: ClassVar[Mapping[str, str | Query]] = {}
    paginated: ClassVar[bool] = False
    versioned: ClassVar[frozenset[str]] = frozenset()  # methods that require If-Match
    delivers: ClassVar[frozenset[str]] = frozenset()  # methods that a phone also uses for others who have a PIN on it
    needs_password: ClassVar[str] = ""  # the refusal of a POST in a sign-in by PIN, which would outlast it
    idempotency_key: ClassVar[bool] = True  # whether a POST requires one
    in_a_shop: ClassVar[bool] = True
    body_limit: ClassVar[int] = 256 * 1024  # bytes; more is refused before it is read
    parser_classes = [JSONBody]

    def __init_subclass__(cls, **kw: Any) -> None:
        super().__init_subclass__(**kw)
        _check_roles(cls)
        if "post" in cls.__dict__ and cls.idempotency_key:
            cls.post = as_a_command(cls.__dict__["post"])  # type: ignore[attr-defined]

    def initial(self, request: Request, *args: Any, **kw: Any) -> None:
        super().initial(request, *args, **kw)
        method = str(request.method).lower().replace("head", "get")
        if method not in self.permissions:
            raise MethodNotAllowed(method)
        if token := token_of_request(request):
            route = request._request.resolver_match.route  # type: ignore[union-attr]
            check_reach(token, slug=kw.get("slug"), route=route, method=method)
        if self.in_a_shop:
            self.admit(request, kw["slug"], self.permissions[method])
        elif self.permissions[method] == access.SIGNED_IN:
            self.person = access.signed_in(request.user)
        if self.needs_password and method == "post" and began_by_pin(request):
            raise RequestError(409, self.needs_password)
        parameters = {*self.query_parameters, *(OF_PAGES if self.paginated else ())} if method == "get" else set()
        for name, values in request.query_params.lists():
            if name not in parameters:
                raise RequestError(400, "unknown-parameter", name=name, known=", ".join(sorted(parameters)) or "-")
            if len(values) > 1:
                raise RequestError(400, "repeated-parameter", name=name)

    def admit(self, request: Request, slug: str, allowed: frozenset[str]) -> None:
        """Sets `self.actor`. 401 signed out, 404 not a member, 403 a role that may not.

        401 also where X-Member names another member: the person on this device changed after the request was made. A
        method that `delivers` is then done in the name of that member, if they have a PIN on the device.
        """
        token = token_of_request(request)
        channel = "session" if token is None else "token"
        self.actor = access.actor_in_shop(request.user, slug, allowed, channel=channel)
        assert self.actor.member is not None
        named = request.headers.get("X-Member", str(self.actor.member.pk))
        if named != str(self.actor.member.pk):
            device = "" if token else request.COOKIES.get(settings.DEVICE_COOKIE_NAME, "")
            other = pins.member_on(device=device, shop=self.actor.shop, member=named, now=timezone.now())
            if other is None or str(request.method).lower() not in self.delivers:
                raise RequestError(401, "another-person")
            self.actor = access.Actor(shop=self.actor.shop, member=other)
        speak(*self.actor.languages)

    def prepare(self, request: Request, *args: Any, **kw: Any) -> None:
        """Does slow work of a POST (a PDF) before its transaction; subclasses keep the result on self."""

    def body(self, request: Request) -> dict[str, Any]:
        """The validated body of the request. Refuses an unknown field, which would be lost without notice."""
        serializer_class = self.request_bodies[str(request.method).lower()]
        assert serializer_class is not None
        serializer = serializer_class(data=request.data)
        if unknown := unknown_fields(serializer, request.data):
            name = unknown[0].rpartition("/")[2]
            raise RequestError(400, "invalid", (FieldError(unknown[0], "unknown", {"name": name}),))
        serializer.is_valid(raise_exception=True)
        return dict(serializer.validated_data)

    def page(self, request: Request, rows: Any, ordering: tuple[str, ...], present: Callable[[Any], Any]) -> Response:
        """One page of `rows`, each through `present`, with the next page in the Link header."""
        pages = Pages()
        pages.ordering = ordering
        if (limit := request.query_params.get("limit")) is not None:
            parse_whole(limit, "/limit", 1)
        try:
            _check_position(pages, rows, request)
            page_rows: Any = pages.paginate_queryset(rows, request, view=self)
        except (NotFound, ModelInvalid):
            raise field_error("/cursor", "cursor") from None
        answer = Response({"items": [present(row) for row in page_rows or ()]})
        if following := pages.get_next_link():
            address = urlsplit(following)  # without the host, which a proxy may hide from us
            answer["Link"] = f'<{address.path}?{address.query}>; rel="next"'
        return answer

    def expected_version(self, request: Request) -> int:
        """The version in If-Match. 428 without the header, 412 for a value that was never an ETag of ours."""
        sent = request.headers.get("If-Match")
        if sent is None:
            raise RequestError(428, "version-required")
        version = sent.strip().removeprefix("W/").strip('"').split(".")[0]
        if not (version.isdecimal() and len(version) < 10):
            raise RequestError(412, "changed-meanwhile")
        return int(version)


def _check_roles(view: type[Endpoint]) -> None:
    """Raises TypeError unless `permissions` names the roles of exactly the view's methods."""
    methods = {name for name in view.http_method_names if hasattr(view, name)} - {"head", "options"}
    if methods != set(view.permissions):
        raise TypeError(f"{view.__name__} has {sorted(methods)} and permissions for {sorted(view.permissions)}")
    choices = (access.EVERYONE,) if view.in_a_shop else (access.ANYONE, access.SIGNED_IN)
    for method, roles in view.permissions.items():
        if not roles or not any(roles <= choice for choice in choices):
            raise TypeError(f"{view.__name__}.{method} allows {sorted(roles)}")


def _check_position(pages: Pages, rows: Any, request: Request) -> None:
    """Checks a client's cursor: its position has to be a value of the column that the rows are ordered by."""
    cursor = pages.decode_cursor(request)
    if cursor is None or cursor.position is None:
        return
    column = rows.model._meta.get_field(pages.ordering[0].removeprefix("-"))
    value = column.to_python(cursor.position)
    column.run_validators(value)
    if not is_text(str(cursor.position)) or (isinstance(value, datetime) and value.tzinfo is None):
        raise NotFound


def versioned(answer: AnswerData, version: int, status: int = 200) -> Response:
    """The answer with its ETag: the row's version and a digest of the body, as prices may move without the row."""
    written = encode(answer)  # once, for the print and for the answer
    mark = hashlib.sha256(written).hexdigest()[:12]
    return Response(written, status=status, headers={"ETag": f'"{version}.{mark}"'})


class SecretAnswer(Response):
    """An answer with a secret. `stored` is the answer without it, which is kept and returned for a repeat."""

    holds_a_secret = True  # so it is not compressed

    def __init__(self, data: AnswerData, *, stored: AnswerData, status: int = 201) -> None:
        super().__init__(data, status=status)
        self.stored = stored


def as_a_command(post: Callable[..., Response]) -> Callable[..., Response]:
    """Makes a POST handler a Command: its effect and its stored answer are one transaction."""

    @wraps(post)
    def handler(self: Endpoint, request: Request, *args: Any, **kw: Any) -> Response:
        key, digest = _key(request), _digest(request)
        name = commands.command_name(type(self).__name__, request.path)
        stored = commands.stored(actor=self.actor, key=key, name=name, digest=digest)
        if stored is not None:
            return Response(stored.result, status=stored.status)
        self.prepare(request, **kw)
        return commands.once(
            actor=self.actor, key=key, name=name, digest=digest, act=lambda: post(self, request, *args, **kw)
        )

    return handler


def _key(request: Request) -> UUID:
    try:
        return UUID(request.headers["Idempotency-Key"])
    except KeyError:
        raise RequestError(400, "key-required") from None
    except ValueError:
        raise RequestError(400, "key-malformed") from None


def _digest(request: Request) -> str:
    data = request.data
    if hasattr(data, "lists"):  # a form with files
        parts: list[Any] = [[name, *(_content(value) for value in values)] for name, values in sorted(data.lists())]
        return hashlib.sha256(orjson.dumps(parts)).hexdigest()
    try:
        return hashlib.sha256(orjson.dumps(data, option=orjson.OPT_SORT_KEYS)).hexdigest()
    except TypeError:  # half of a surrogate pair, a number beyond 64 bits
        raise RequestError(400, "malformed") from None


def _content(value: Any) -> str:
    if not hasattr(value, "chunks"):
        return str(value)
    digest = hashlib.sha256(b"".join(value.chunks())).hexdigest()
    value.seek(0)
    return digest
