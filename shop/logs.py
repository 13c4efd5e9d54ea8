"""Log lines: time, level, message; for a request also person, address and status. No secret, no e-mail.

The secret of a customer's link is cut out. A path is logged without its query, which may hold a name or a plate. A
failed sign-in is logged with a keyed digest of the e-mail: enough to see that one person is tried again and again.
"""

import hashlib
import hmac
import logging
import re
import time
from collections.abc import Callable
from copy import copy
from typing import Any

from django.conf import settings
from django.contrib.auth.signals import user_logged_in, user_login_failed
from django.http import HttpRequest, HttpResponse

requests = logging.getLogger("kitwright.requests")
people = logging.getLogger("kitwright.people")
REFUSED = {401, 403, 413, 415, 429}
SECRET = re.compile(r"(/(?:q|calendar)/[^/\s]*/)[^/\s?\"']{16,}")
LONGEST_PATH = 200


def without_secret(text: str) -> str:
    return SECRET.sub(r"\1(secret)", text)


class Lines(logging.Formatter):
    """One line a record, with the time in UTC.

    A request that the framework refuses as suspicious, such as one to another host's name, is a line without its
    traceback: strangers could fill the disk with those.
    """

    converter = time.gmtime  # type: ignore[assignment]
    default_msec_format = "%s.%03dZ"

    def format(self, record: logging.LogRecord) -> str:
        if record.name.startswith("django.security."):
            record = copy(record)
            record.exc_info, record.exc_text = None, None
        return without_secret(super().format(record))


class WithoutSecrets(logging.Filter):
    """Cuts secrets out of the records of the framework's loggers, which name paths."""

    def filter(self, record: logging.LogRecord) -> bool:
        record.msg, record.args = without_secret(record.getMessage()), ()
        return True


def request_lines(get_response: Callable[[HttpRequest], HttpResponse]) -> Callable[[HttpRequest], HttpResponse]:
    """Middleware that logs each request: refusals as warnings, server errors as errors, the rest as information."""

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
    """The path without its secret, and without characters that would begin a new line."""
    plain = "".join(character if character.isprintable() else "?" for character in request.path)
    return without_secret(plain)[:LONGEST_PATH]


def person_of(request: HttpRequest) -> str:
    """The user's id, if this request has looked it up; no query is made for a log line."""
    user = getattr(request, "_cached_user", None)
    return str(getattr(user, "pk", None) or "-")


def address_of(request: HttpRequest | None) -> str:
    return str(request.META.get("REMOTE_ADDR", "-")) if request is not None else "-"


def print_of(email: str) -> str:
    """A keyed digest (HMAC) of the e-mail: equal for equal e-mails, useless without this installation's key."""
    key = settings.SECRET_KEY.encode()
    return hmac.new(key, email.strip().lower().encode("utf-8", "replace"), hashlib.sha256).hexdigest()[:12]


def _failed(sender: Any, credentials: dict[str, Any], request: HttpRequest | None = None, **kw: Any) -> None:
    whom = print_of(str(credentials.get("username", "")))
    people.warning("sign-in failed whom=%s address=%s", whom, address_of(request))


def _signed_in(sender: Any, request: HttpRequest, user: Any, **kw: Any) -> None:
    people.info("signed in person=%s whom=%s address=%s", user.pk, print_of(user.email), address_of(request))


def listen() -> None:
    """Connects the signals of signing in to the log. Called once, when the apps are ready."""
    user_login_failed.connect(_failed, dispatch_uid="a failed sign-in is logged")
    user_logged_in.connect(_signed_in, dispatch_uid="a sign-in is logged")
