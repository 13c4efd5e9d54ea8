"""Log lines: when, how grave, what; of a request also who, from where and what became of it. No secret, no e-mail.

A customer's link is cut before its secret, an address is logged without its query (names and plates are searched
for), and whose sign-in failed stands as a keyed print: enough to see that one person is tried again and again.
"""

import hashlib
import hmac
import logging
import re
import time
from collections.abc import Callable
from typing import Any

from django.conf import settings
from django.contrib.auth.signals import user_logged_in, user_login_failed
from django.http import HttpRequest, HttpResponse

requests = logging.getLogger("kitwright.requests")
people = logging.getLogger("kitwright.people")
REFUSED = {401, 403, 413, 415, 429}
SECRET = re.compile(r"(/q/[^/\s]*/)[^/\s?\"']{16,}")
LONGEST_PATH = 200


def without_secret(text: str) -> str:
    return SECRET.sub(r"\1(secret)", text)


class Lines(logging.Formatter):
    """One line a record, with the time in UTC."""

    converter = time.gmtime  # type: ignore[assignment]
    default_msec_format = "%s.%03dZ"

    def format(self, record: logging.LogRecord) -> str:
        return without_secret(super().format(record))


class WithoutSecrets(logging.Filter):
    """For loggers of the framework that name an address: what any handler gets of a record holds no secret."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.msg, record.args = without_secret(record.getMessage()), ()
        return True


def request_lines(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """A line for each request: refusals as warnings, our own failures as errors, the rest as information."""

    def middleware(request: HttpRequest) -> HttpResponse:
        began = time.monotonic_ns()
        response = get_response(request)
        milliseconds = (time.monotonic_ns() - began) // 1_000_000
        status = response.status_code
        level = logging.ERROR if status >= 500 else logging.WARNING if status in REFUSED else logging.INFO
        requests.log(
            level,
            "%d %s %s person=%s address=%s %d ms",
            status,
            request.method,
            path_of(request),
            person_of(request),
            address_of(request),
            milliseconds,
        )
        return response

    return middleware


def path_of(request: HttpRequest) -> str:
    """Without what would begin a line of its own or reach a person's secret."""
    plain = "".join(character if character.isprintable() else "?" for character in request.path)
    return without_secret(plain)[:LONGEST_PATH]


def person_of(request: HttpRequest) -> str:
    """The user's id, if this request has looked it up; no query is made for a log line."""
    user = getattr(request, "_cached_user", None)
    return str(getattr(user, "pk", None) or "-")


def address_of(request: HttpRequest | None) -> str:
    return str(request.META.get("REMOTE_ADDR", "-")) if request is not None else "-"


def print_of(email: str) -> str:
    """The same for the same e-mail, and of no use without this installation's key."""
    key = settings.SECRET_KEY.encode()
    return hmac.new(key, email.strip().lower().encode("utf-8", "replace"), hashlib.sha256).hexdigest()[:12]


def _failed(sender: Any, credentials: dict[str, Any], request: HttpRequest | None = None, **kw: Any) -> None:
    whom = print_of(str(credentials.get("username", "")))
    people.warning("sign-in failed whom=%s address=%s", whom, address_of(request))


def _signed_in(sender: Any, request: HttpRequest, user: Any, **kw: Any) -> None:
    people.info("signed in person=%s whom=%s address=%s", user.pk, print_of(user.email), address_of(request))


def listen() -> None:
    """Once, as the apps are ready."""
    user_login_failed.connect(_failed, dispatch_uid="a failed sign-in is logged")
    user_logged_in.connect(_signed_in, dispatch_uid="a sign-in is logged")
