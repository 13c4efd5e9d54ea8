"""The throttle of sign-ins. Tries are counted in the database, so all processes share the count.

Wrong tries count by person and address together, so that guessing from elsewhere locks nobody out. All wrong tries
from one address have a looser limit of their own.
"""

import ipaddress
from collections.abc import Iterator
from datetime import datetime, timedelta
from typing import Any

from django.conf import settings
from django.db.models import QuerySet
from django.utils.crypto import salted_hmac

from shop.models import SignInTry

WINDOW = timedelta(minutes=15)


class TooManyTriesError(Exception):
    """Too many wrong tries. `wait` is the time until the next is allowed."""

    def __init__(self, wait: timedelta) -> None:
        super().__init__(wait)
        self.wait = wait


def count_try(*, email: str, address: str, now: datetime) -> SignInTry:
    """Counts a try before the password is checked, so that simultaneous tries cannot exceed the limit.

    A row is written first, counted with all others, and removed if it is one too many: whichever row is written last
    counts all the others. Refused tries do not lengthen the wait.
    """
    attempt = SignInTry(person=_person(email), address=_network(address), tried_at=now)
    _refuse(attempt, now, 0)
    attempt.save(force_insert=True)
    try:
        _refuse(attempt, now, 1)
    except TooManyTriesError:
        attempt.delete()
        raise
    return attempt


def forget_tries(attempt: SignInTry) -> None:
    """Removes this person's tries from this address, after a right password."""
    SignInTry.objects.filter(person=attempt.person, address=attempt.address).delete()


def purge_tries(*, now: datetime) -> int:
    """Removes tries that no longer count. Returns their number."""
    return SignInTry.objects.filter(tried_at__lte=now - WINDOW).delete()[0]


def _refuse(attempt: SignInTry, now: datetime, own: int) -> None:
    for rows, limit in _limits(attempt, now):
        if rows.count() >= limit + own:
            oldest = rows.order_by("tried_at").values_list("tried_at", flat=True).first() or now
            raise TooManyTriesError(oldest + WINDOW - now)


def _limits(attempt: SignInTry, now: datetime) -> Iterator[tuple[QuerySet[Any], int]]:
    recent = SignInTry.objects.filter(address=attempt.address, tried_at__gt=now - WINDOW)
    yield recent.filter(person=attempt.person), settings.SIGN_IN_TRIES
    yield recent, settings.SIGN_IN_TRIES_OF_AN_ADDRESS


def _person(email: str) -> str:
    return salted_hmac("shop.sign_in_tries", email.lower(), algorithm="sha256").hexdigest()


def _network(address: str) -> str:
    """An IPv4 address unchanged; for an IPv6 address the network of 64 bits, which one subscriber has."""
    try:
        ip = ipaddress.ip_address(address)
    except ValueError:
        return address[:45]
    if isinstance(ip, ipaddress.IPv6Address):
        return str(ip.ipv4_mapped or ipaddress.ip_network((ip, 64), strict=False))
    return str(ip)
