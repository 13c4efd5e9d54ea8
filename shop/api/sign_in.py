"""Session sign-in for the app: cookie, CSRF token, and a throttle that counts a try before checking the password."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.contrib.auth import login
from django.utils import timezone
from rest_framework.authentication import SessionAuthentication
from rest_framework.exceptions import Throttled
from rest_framework.request import Request

from shop.hashing import hashing
from shop.models import User
from shop.services.sign_in_tries import TooManyTriesError, count_try, forget_tries
from shop.sessions import AGENT


class SessionWithCsrf(SessionAuthentication):
    """Checks CSRF for a signed-out person too, which DRF skips: signing in needs it."""

    def authenticate(self, request: Request) -> Any:
        signed_in = super().authenticate(request)
        if signed_in is None and request.method not in ("GET", "HEAD", "OPTIONS"):
            self.enforce_csrf(request)
        return signed_in

    def authenticate_header(self, request: Request) -> str:
        return "Session"


@contextmanager
def throttled(request: Request, email: str) -> Iterator[None]:
    """Raises 429 after too many tries, and 503 while too many passwords are being checked, which counts as no try.

    Leaving the block without an exception means that the password was right.
    """
    with hashing():
        try:
            attempt = count_try(email=email, address=request.META.get("REMOTE_ADDR", ""), now=timezone.now())
        except TooManyTriesError as error:
            raise Throttled(wait=int(error.wait.total_seconds())) from None
        yield
    forget_tries(attempt)


@contextmanager
def counted_codes(user: User) -> Iterator[None]:
    """Raises 429 after too many wrong codes of a person, from whatever address.

    Only who has the password gets to type a code, so nobody else can keep the person out by wrong ones.
    """
    try:
        attempt = count_try(email=f"code {user.email}", address=f"code {user.pk}", now=timezone.now())
    except TooManyTriesError as error:
        raise Throttled(wait=int(error.wait.total_seconds())) from None
    yield
    forget_tries(attempt)


def count_request(request: Request, email: str) -> None:
    """Counts a request for a new password, apart from the tries to sign in. Raises 429 after too many."""
    try:
        count_try(email=f"forgotten {email}", address=request.META.get("REMOTE_ADDR", ""), now=timezone.now())
    except TooManyTriesError as error:
        raise Throttled(wait=int(error.wait.total_seconds())) from None


def begin(request: Request, user: User) -> None:
    """Signs the person in on this device, in place of whoever was signed in here."""
    request._request.session.flush()  # the longest life of a session begins with its own sign-in
    login(request._request, user)
    request._request.session[AGENT] = request.headers.get("User-Agent", "")[:300]
    request.user = user
