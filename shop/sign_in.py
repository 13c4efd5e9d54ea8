"""Session sign-in for the app: cookie and CSRF token, throttled by address and by e-mail."""

import hashlib
import time
from typing import Any

from django.conf import settings
from django.core.cache import cache
from rest_framework.authentication import SessionAuthentication
from rest_framework.exceptions import Throttled
from rest_framework.request import Request

QUARTER = 15 * 60


class SessionWithCsrf(SessionAuthentication):
    """DRF would skip the CSRF check for somebody signed out; signing in needs it as well."""

    def authenticate(self, request: Request) -> Any:
        found = super().authenticate(request)
        if found is None and request.method not in ("GET", "HEAD", "OPTIONS"):
            self.enforce_csrf(request)
        return found

    def authenticate_header(self, request: Request) -> str:
        return "Session"


def _keys(request: Request, email: str) -> tuple[str, ...]:
    address = request.META.get("REMOTE_ADDR", "")
    bucket = int(time.time() // QUARTER)
    person = hashlib.sha256(email.lower().encode()).hexdigest()
    return f"sign-in:{address}:{bucket}", f"sign-in:{person}:{bucket}"


def refuse_after_many_tries(request: Request, email: str) -> None:
    """At most SIGN_IN_TRIES wrong passwords a quarter of an hour, for an address and for an e-mail."""
    if any(cache.get(key, 0) >= settings.SIGN_IN_TRIES for key in _keys(request, email)):
        raise Throttled(wait=QUARTER - time.time() % QUARTER)


def count_wrong_try(request: Request, email: str) -> None:
    for key in _keys(request, email):
        cache.add(key, 0, QUARTER)
        cache.incr(key)
