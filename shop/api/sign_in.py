"""Session sign-in for the app: cookie, CSRF token, and a throttle that counts a try before checking the password."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

from django.conf import settings
from django.contrib.auth import login
from django.contrib.auth.signals import user_login_failed
from django.utils import timezone
from rest_framework.authentication import SessionAuthentication
from rest_framework.exceptions import Throttled
from rest_framework.request import Request

from shop.hashing import hashing
from shop.models import User
from shop.services.sign_in_tries import TooManyTriesError, count_try, forget_tries
from shop.sessions import AGENT

BY, BY_PIN = "by", "pin"
"""The key of a session under which stands how it was begun."""


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

    Only a person with the password can enter a code, so nobody else can lock the person out by wrong codes.
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


def device_of(request: Request) -> str:
    """The secret by which an enrolled device is known; empty for any other."""
    return str(request.COOKIES.get(settings.DEVICE_COOKIE_NAME, ""))


def began_by_pin(request: Request) -> bool:
    """Whether this sign-in began by a PIN: it may neither set a PIN nor make anything that outlasts it."""
    return request._request.session.get(BY) == BY_PIN


def log_failure(request: Request, user: User) -> None:
    """Logs a wrong PIN as a failed sign-in of the person."""
    user_login_failed.send(sender=__name__, credentials={"username": user.email}, request=request._request)


def begin(request: Request, user: User, *, by: str = "password") -> None:
    """Signs the person in on this device, in place of the person who was signed in here."""
    request._request.session.flush()  # the longest life of a session begins with its own sign-in
    login(request._request, user)
    request._request.session[BY] = by
    request._request.session[AGENT] = request.headers.get("User-Agent", "")[:300]
    request.user = user
