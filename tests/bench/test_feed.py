"""What the change feed costs a workshop whose phones all lie open."""

from time import process_time

import pytest
from django.test import Client

from shop.models import ChangeNumber
from shop.services import feed
from tests.bench.ratios import milliseconds
from tests.cast import Cast

pytestmark = pytest.mark.bench

PHONES, SECONDS = 20, 2  # each asks once in so many seconds
MOST = 0.05  # of one core
POLLS = 50  # a run


def test_twenty_phones_that_ask_every_two_seconds(cast: Cast) -> None:
    """CPU time of the whole way through Django (middleware, session, role, answer), of this process alone."""
    for kind in ChangeNumber.Kind:
        feed.record(who=cast.acting("manager"), kind=kind)
    client, address = Client(), "/api/v1/shops/saltmarsh/changes"
    client.force_login(cast.parts.user)
    said = client.get(address).json()
    query = {"since": said["number"], "epoch": said["epoch"]}

    def polls() -> None:
        for _ in range(POLLS):
            assert client.get(address, query).status_code == 304

    began = process_time()
    poll = milliseconds(polls) / POLLS
    share = poll / 1000 * PHONES / SECONDS
    print(
        f"\na poll of the change feed: {poll:.2f} ms; {PHONES} phones every {SECONDS} s: {share:.1%} of a core "
        f"(at most {MOST:.0%}), measured over {process_time() - began:.1f} s of the processor",
        flush=True,
    )
    assert share <= MOST
