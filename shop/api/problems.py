"""Refusals as RFC 9457 problem+json. `type` is a stable slug; title and detail are ready to show."""

import errno
import logging
import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import orjson
from django.core.exceptions import RequestDataTooBig, TooManyFieldsSent, TooManyFilesSent
from django.core.exceptions import ValidationError as ModelInvalid
from django.db import IntegrityError, OperationalError
from django.http import Http404, HttpResponse
from rest_framework import exceptions
from rest_framework.permissions import SAFE_METHODS
from rest_framework.request import Request
from rest_framework.response import Response
from rest_framework.views import set_rollback

from shop.api.bearer import TokenRefusedError
from shop.api.constraint_names import refusal
from shop.api.rates import TooManyRequestsError
from shop.calc.errors import CalculationError
from shop.errors import RequestError
from shop.hashing import BusyError
from shop.presenters.errors import calculation_words
from shop.words import catalogue, knows, say

log = logging.getLogger(__name__)
CONTENT_TYPE = "application/problem+json"
FULL = ("database or disk is full", "No space left on device")  # SQLite's words, and the system's as PostgreSQL says


@dataclass(frozen=True, slots=True)
class Problem:
    """A refusal as an answer. `errors` are (JSON pointer, sentence), `detail` is a key in place of its own."""

    status: int
    slug: str
    errors: Sequence[tuple[str, str]] = ()
    facts: Mapping[str, object] = field(default_factory=dict)
    detail: str = ""

    def body(self) -> dict[str, Any]:
        body: dict[str, Any] = {
            "type": f"/problems/{self.slug}",
            "title": say(f"problem.{self.slug}.title", **self.facts),
            "status": self.status,
            "detail": say(self.detail or f"problem.{self.slug}.detail", **self.facts),
        }
        if self.errors:
            body["errors"] = [{"pointer": pointer, "detail": detail} for pointer, detail in self.errors]
        return body


def slugs() -> list[str]:
    """Every slug of a refusal, one for each title in the catalogue."""
    titles = (re.fullmatch("problem-(.+)-title", identifier) for identifier in catalogue())
    return sorted(title[1] for title in titles if title)


def problem(error: RequestError) -> Problem:
    fields = [(wrong.pointer, wrong.words or say(f"field.{wrong.key}", **wrong.facts)) for wrong in error.fields]
    return Problem(error.status, error.code, fields, error.facts)


def problem_response(error: RequestError, headers: dict[str, str] | None = None) -> HttpResponse:
    content = orjson.dumps(problem(error).body())
    return HttpResponse(content, status=error.status, content_type=CONTENT_TYPE, headers=headers)


def as_problem(error: Exception, context: dict[str, Any]) -> Response:
    """DRF's exception handler: every error of an API view becomes a problem. An unexpected one is logged."""
    set_rollback()
    answered = _problem(error)
    if answered.slug == "invalid" and _only_reads(context.get("request")):
        answered = replace(answered, detail="problem.invalid.read")
    if answered.status >= 500:
        log.error("unforeseen", exc_info=error)
    answer = Response(answered.body(), status=answered.status, content_type=CONTENT_TYPE)
    for name, value in _headers(error).items():
        answer[name] = value
    return answer


def _only_reads(request: Request | None) -> bool:
    return request is not None and request.method in SAFE_METHODS


def _headers(error: Exception) -> dict[str, str]:
    headers: dict[str, str] = {}
    wait = getattr(error, "wait", None)
    if isinstance(error, exceptions.Throttled | BusyError) and wait:
        headers["Retry-After"] = str(int(wait) + 1)
    if challenge := getattr(error, "auth_header", ""):
        headers["WWW-Authenticate"] = challenge
    return headers


SLUGS: dict[type[exceptions.APIException], str] = {
    exceptions.NotAuthenticated: "sign-in-first",
    exceptions.AuthenticationFailed: "sign-in-first",
    exceptions.PermissionDenied: "not-for-this-role",
    exceptions.NotFound: "not-found",
    exceptions.MethodNotAllowed: "method-not-allowed",
    exceptions.NotAcceptable: "not-acceptable",
    exceptions.UnsupportedMediaType: "unsupported-media-type",
    exceptions.ParseError: "malformed",
    exceptions.Throttled: "too-many-tries",
    TokenRefusedError: "token-closed",
    TooManyRequestsError: "too-many-requests",
    BusyError: "busy",
}


def _problem(error: Exception) -> Problem:
    if isinstance(error, RequestError):
        return problem(error)
    if isinstance(error, exceptions.ValidationError):
        return Problem(400, "invalid", _pointers(error.detail))
    if isinstance(error, ModelInvalid):
        return Problem(400, "invalid", _model_pointers(error))
    if isinstance(error, exceptions.APIException):
        slug = SLUGS.get(type(error), "refused")
        status = 401 if slug == "sign-in-first" else error.status_code
        return Problem(status, slug)
    if isinstance(error, Http404):
        return Problem(404, "not-found")
    if isinstance(error, RequestDataTooBig | TooManyFieldsSent | TooManyFilesSent):
        return Problem(413, "too-large")
    if isinstance(error, CalculationError):
        return Problem(422, "cannot-compute", facts={"why": calculation_words(error)})
    if isinstance(error, IntegrityError):
        return _refused_by_the_database(error)
    if disk_is_full(error):
        return Problem(507, "disk-full")
    return Problem(500, "unforeseen")


def disk_is_full(error: BaseException | None) -> bool:
    """Returns whether the error or one of its causes is a full disk, in the words of the system or a database."""
    while error is not None:
        if isinstance(error, OSError) and error.errno == errno.ENOSPC:
            return True
        if isinstance(error, OperationalError) and any(words in str(error) for words in FULL):
            return True
        error = error.__cause__
    return False


def _refused_by_the_database(error: IntegrityError) -> Problem:
    name = refusal(error)
    if not knows(f"refused.{name}"):
        log.warning("refused by the database: %s", name)
    why = say(f"refused.{name}" if knows(f"refused.{name}") else "refused.other")
    return Problem(409, "refused", facts={"why": why})


def _pointers(detail: Any, path: str = "") -> list[tuple[str, str]]:
    """DRF's nested detail as (JSON pointer, sentence)."""
    if isinstance(detail, dict):
        return [
            pair
            for key, value in detail.items()
            for pair in _pointers(value, path if key == "non_field_errors" else f"{path}/{key}")
        ]
    if isinstance(detail, list):
        if all(isinstance(item, str) for item in detail):
            return [(path, _sentence(item)) for item in detail]
        return [pair for i, item in enumerate(detail) if item for pair in _pointers(item, f"{path}/{i}")]
    return [(path, _sentence(detail))]


def _sentence(detail: Any) -> str:
    """The catalogue's sentence for the detail's code; the framework's own if there is none."""
    code = getattr(detail, "code", "")
    return say(f"field.{code}") if knows(f"field.{code}") else str(detail)


def _model_pointers(error: ModelInvalid) -> list[tuple[str, str]]:
    """(JSON pointer, sentence) for each error of a row, worded by the catalogue instead of the framework."""
    fields = error.error_dict if hasattr(error, "error_dict") else {"": error.error_list}
    return [(f"/{name}" if name else "", _refusal_words(error)) for name, errors in fields.items() for error in errors]


def refused_words(error: ModelInvalid) -> str:
    """The errors of a row or a password for a command: "name: It contains an invalid character." """
    if not hasattr(error, "error_dict"):
        return "; ".join(error.messages)
    return "; ".join(f"{pointer.removeprefix('/')}: {words}" for pointer, words in _model_pointers(error))


def _refusal_words(error: ModelInvalid) -> str:
    key = f"field.kept.{error.code}"
    limit = (error.params or {}).get("limit_value", "")
    return say(key if knows(key) else "field.kept.invalid", n=limit)
