"""The number of requests that a program makes in a minute, counted by each process for itself.

The limit keeps a program that runs wild from taking the threads of the people at work. It guards no secret, so it
needs no row.
"""

from threading import Lock
from time import monotonic_ns
from uuid import UUID

from django.conf import settings
from rest_framework.exceptions import Throttled

SECOND = 10**9
MINUTE = 60 * SECOND  # in nanoseconds
_lock = Lock()
_counts: dict[UUID, tuple[int, int]] = {}  # {token: (begin of its minute, requests in it)}


class TooManyRequestsError(Throttled):
    """429: a program asks more often than `TOKEN_REQUESTS_A_MINUTE`. `wait` is in seconds."""


def check_rate(token: UUID) -> None:
    """Counts a request of a token. Raises TooManyRequestsError above the limit."""
    now = monotonic_ns()
    with _lock:
        begin, requests = _counts.get(token, (now, 0))
        if now - begin >= MINUTE:
            begin, requests = now, 0
        if requests >= settings.TOKEN_REQUESTS_A_MINUTE:
            raise TooManyRequestsError(wait=(begin + MINUTE - now) // SECOND)
        _counts[token] = (begin, requests + 1)


def forget_rates() -> None:
    """Forgets all counts, for tests."""
    _counts.clear()
