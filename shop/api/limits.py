"""The largest body that each address accepts, decided by the headers before any byte of the body is read.

An endpoint has `body_limit`, and accepts files if one of its parsers reads multipart. A page has `@accepts_form`. Every
other address, known or not, accepts at most 1 KiB. The server checks as soon as the headers are read, and the
middleware checks again before the CSRF check, which would read a form.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import wraps
from itertools import chain
from typing import Any, TypeVar, cast

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.urls import Resolver404, resolve
from rest_framework.parsers import MultiPartParser

from shop.api.bearer import is_bearer
from shop.api.endpoint import Endpoint
from shop.errors import RequestError
from shop.storable import is_text
from shop.words import say

NEXT_TO_NOTHING = 1024
FORM = 16 * 1024
View = TypeVar("View", bound=Callable[..., Any])


@dataclass(frozen=True, slots=True)
class Allowance:
    """The largest body in bytes, and whether it may contain files."""

    most: int = NEXT_TO_NOTHING
    files: bool = False


@dataclass(frozen=True, slots=True)
class Head:
    """A request without its body. `length` is None for a chunked body."""

    method: str
    path: str
    content_type: str
    length: int | None
    has_session: bool  # or a token


def accepts_form(view: View) -> View:
    """Marks a page that reads a small form. Text that our databases cannot store is refused."""

    @wraps(view)
    def guarded(request: HttpRequest, *args: Any, **kw: Any) -> Any:
        if all(map(is_text, chain.from_iterable(values for _, values in request.POST.lists()))):
            return view(request, *args, **kw)
        detail = say("field.null_characters_not_allowed")
        return HttpResponse(detail, status=400, content_type="text/plain; charset=utf-8")

    guarded.allowance = Allowance(FORM)  # type: ignore[attr-defined]
    return cast(View, guarded)


def allowance(method: str, path: str) -> Allowance:
    """The allowance of an address for a method."""
    try:
        view: Any = resolve(path).func
    except Resolver404:
        return Allowance()
    endpoint = getattr(view, "view_class", None)
    if endpoint is None:
        return getattr(view, "allowance", Allowance()) if method == "POST" else Allowance()
    if not issubclass(endpoint, Endpoint) or method.lower() not in endpoint.request_bodies:
        return Allowance()
    files = any(issubclass(parser, MultiPartParser) for parser in endpoint.parser_classes)
    return Allowance(endpoint.body_limit, files)


def head_of(request: HttpRequest) -> Head:
    """The head of a Django request."""
    length = request.META.get("CONTENT_LENGTH") or "0"
    return Head(
        method=str(request.method),
        path=request.path_info,
        content_type=request.META.get("CONTENT_TYPE", ""),
        length=int(length) if length.isascii() and length.isdigit() and len(length) < 20 else 0,
        has_session=settings.SESSION_COOKIE_NAME in request.COOKIES
        or is_bearer(request.META.get("HTTP_AUTHORIZATION", "")),
    )


def refusal(head: Head) -> RequestError | None:
    """The problem for which the body is not read; None if it is accepted."""
    if head.length == 0:
        return None
    allowed = allowance(head.method, head.path)
    if head.length is not None and head.length > allowed.most:
        return RequestError(413, "too-large")
    if head.content_type.lower().startswith("multipart/") and not allowed.files:
        return RequestError(415, "unsupported-media-type")
    if allowed.files and not head.has_session:
        return RequestError(401, "sign-in-first")
    return None
