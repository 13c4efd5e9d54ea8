"""Limits the passwords that one process hashes at once: Argon2 takes 100 MiB and a core or two for each."""

from collections.abc import Iterator
from contextlib import contextmanager
from threading import BoundedSemaphore

from rest_framework.exceptions import APIException

AT_ONCE, IN_LINE = 2, 2
PATIENCE = 3
"""Seconds to wait in line."""

_hashing, _room = BoundedSemaphore(AT_ONCE), BoundedSemaphore(AT_ONCE + IN_LINE)


class BusyError(APIException):
    """503: too many passwords are being checked. `wait` is in seconds."""

    status_code = 503
    wait = 4


@contextmanager
def hashing() -> Iterator[None]:
    """Holds one of the places for hashing a password.

    Raises BusyError when the line is full, or after `PATIENCE` seconds in it. The line is short, so that a flood of
    sign-ins leaves threads to the other requests.
    """
    room, turn = _room, _hashing
    if not room.acquire(blocking=False):
        raise BusyError
    try:
        if not turn.acquire(timeout=PATIENCE):
            raise BusyError
        try:
            yield
        finally:
            turn.release()
    finally:
        room.release()
