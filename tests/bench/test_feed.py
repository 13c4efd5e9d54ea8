"""The cost of the change feed in a workshop whose phones are all open."""

from typing import Any

import pytest
from django.test import Client

from shop.models import ChangeNumber
from shop.services import feed
from tests.bench.ratios import ratio
from tests.cast import Cast

pytestmark = pytest.mark.bench

PHONES, SECONDS = 20, 2  # each asks once in so many seconds
MOST = 2.0
"""The longest a poll may take, in multiples of a request that reads only who is signed in."""


def test_twenty_phones_that_ask_every_two_seconds(cast: Cast, settings: Any) -> None:
    """CPU time of the whole way through Django (middleware, session, role, answer), of this process alone."""
    settings.ROOT_URLCONF = "tests.bench.bare_urls"
    for kind in ChangeNumber.Kind:
        feed.record(actor=cast.acting("manager"), kind=kind)
    client, address = Client(), "/api/v1/shops/saltmarsh/changes"
    client.force_login(cast.parts.user)
    latest = client.get(address).json()
    query = {"since": latest["number"], "epoch": latest["epoch"]}
    assert client.get(address, query).status_code == 304
    times, poll, bare = ratio(lambda: client.get(address, query), lambda: client.get("/bare"), runs=100)
    print(
        f"\na poll of the change feed: {poll:.2f} ms, a bare request {bare:.2f} ms, {times:.2f} times (up to {MOST}); "
        f"{PHONES} phones every {SECONDS} s: {poll / 1000 * PHONES / SECONDS:.1%} of a core",
        flush=True,
    )
    assert times <= MOST
