"""Session sign-in for the app: cookie and CSRF token, and a throttle that counts a try before it is made."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.utils import timezone
from rest_framework.authentication import SessionAuthentication
from rest_framework.exceptions import Throttled
from rest_framework.request import Request

from shop.hashing import hashing
from shop.services.sign_in_tries import TooManyTriesError, count_try, forget_tries


class SessionWithCsrf(SessionAuthentication):
    """DRF would skip the CSRF check for somebody signed out; signing in needs it as well."""

    def authenticate(self, request: Request) -> Any:
        signed_in = super().authenticate(request)
        if signed_in is None and request.method not in ("GET", "HEAD", "OPTIONS"):
            self.enforce_csrf(request)
        return signed_in

    def authenticate_header(self, request: Request) -> str:
        return "Session"


@contextmanager
def throttled(request: Request, email: str) -> Iterator[None]:
    """429 after too many tries, and 503, which is no try, while too many passwords are being checked.

    Leaving it without an exception says that the password was right.
    """
    with hashing():
        try:
            attempt = count_try(email=email, address=request.META.get("REMOTE_ADDR", ""), now=timezone.now())
        except TooManyTriesError as error:
            raise Throttled(wait=int(error.wait.total_seconds())) from None
        yield
    forget_tries(attempt)
