"""Real rows of one shop, requested by the manager of another: each answer is 404 and discloses nothing.

The shop's own manager sends the same requests first: without that, a row that nobody
can reach would pass.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Any

import pytest
from django.db import transaction

from tests.api.asked import Asked
from tests.api.endpoints import endpoints
from tests.api.naming_rows import naming_a_row
from tests.api.row_requests import for_each_list, for_each_row
from tests.api.shop_rows import Rows, make_rows
from tests.cast import Cast, make_cast
from tests.client import CheckedClient
from tests.shared import made_once

IN_A_SHOP = "/api/v1/shops/{slug}/"
MADE_OF_NO_ROW = {
    *(("post", "customers"), ("post", "imports"), ("post", "kits"), ("get", "lists/examples")),
    ("get", "lists/headings"),
    ("post", "operations"),
    ("post", "consumables"),
    ("post", "replaced-numbers"),  # names parts by number: tests/kitting/test_replaced_numbers.py
    ("post", "suppliers"),
    ("post", "templates"),
    ("post", "people/invitations"),
    ("post", "calendar-feeds"),
    ("post", "webhooks"),
    ("put", "people/second-factor"),
    *(
        ("put", "opening-hours"),
        ("post", "closed-days"),
        ("post", "exchange-rates"),
        ("post", "holidays"),
        ("put", "start/{step}"),
    ),
    *(("get", "own-data"), ("put", "own-data")),
    ("post", "rules"),  # the next set; tests/api/test_rule_changes.py names a set of another shop
}
GRANTED = (200, 201, 204, 409)


@dataclass(frozen=True)
class Two:
    """Two shops, each with a real row of every kind."""

    cast: Cast
    rows: Rows
    others: Rows


def two_shops() -> Two:
    cast = make_cast()
    rows = make_rows(cast, cast.signed_in("manager"), "Tilda Quarrender", "OBX4417700131")
    elsewhere = replace(cast, shop=cast.elsewhere, advisor=cast.stranger, manager=cast.stranger)
    return Two(cast, rows, make_rows(elsewhere, of_the_stranger(cast), "Bo Harrowgate", "TRN9902800242"))


def of_the_stranger(cast: Cast) -> CheckedClient:
    client = CheckedClient(shop=cast.elsewhere.slug)
    client.force_login(cast.stranger.user)
    return client


@pytest.fixture(scope="module")
def two(django_db_setup: None, django_db_blocker: Any) -> Iterator[Two]:
    yield from made_once(django_db_blocker, two_shops)


@pytest.fixture(autouse=True)
def papers_for_one_test() -> None:
    """Keeps the papers of the module's rows in its own memory."""


@pytest.fixture
def owner(two: Two, db: None) -> CheckedClient:
    return two.cast.signed_in("manager")


@pytest.fixture
def stranger(two: Two, db: None) -> CheckedClient:
    """The manager of the other shop, at that shop's own address."""
    return of_the_stranger(two.cast)


@pytest.fixture
def rows(two: Two, db: None) -> Rows:
    return two.rows


@pytest.fixture
def others(two: Two, db: None) -> Rows:
    return two.others


def answers(client: CheckedClient, requests: Iterable[Asked]) -> list[tuple[Asked, Any]]:
    """The answer to each, as if it were the only one."""
    pairs = []
    for request in requests:
        with transaction.atomic():
            pairs.append((request, request.of(client)))
            transaction.set_rollback(True)
    return pairs


def words_in(rows: Rows, answer: Any) -> list[str]:
    return [word for word in rows.words if word.encode() in answer.content]


@pytest.mark.once
def test_every_method_of_every_path_is_asked(rows: Rows) -> None:
    requests = [*for_each_row(rows), *for_each_list(rows), *naming_a_row(rows, rows)]
    asked_paths = {(request.method, request.path) for request in requests} | MADE_OF_NO_ROW
    assert asked_paths == {(method, path.removeprefix(IN_A_SHOP)) for path, method in endpoints()}


@pytest.mark.once
def test_no_path_gives_or_changes_the_row_of_another_shop(
    rows: Rows, owner: CheckedClient, stranger: CheckedClient
) -> None:
    requests = for_each_row(rows)
    own = {(request.method, request.path): answer.status_code for request, answer in answers(owner, requests)}
    assert not {request: status for request, status in own.items() if status not in GRANTED}
    responses = answers(stranger, requests)
    assert not {
        (request.method, request.path): answer.content for request, answer in responses if answer.status_code != 404
    }
    assert not {
        (request.method, request.path): words_in(rows, answer)
        for request, answer in responses
        if words_in(rows, answer)
    }


@pytest.mark.once
def test_no_list_shows_a_row_of_another_shop(
    rows: Rows, others: Rows, owner: CheckedClient, stranger: CheckedClient
) -> None:
    requests = for_each_list(rows)
    silent = {request.path for request, answer in answers(owner, requests) if not words_in(rows, answer)}
    assert silent == {"changes", "holidays", "start", "vehicles/vin"}  # numbers, steps, what a VIN means
    for request, answer in answers(stranger, requests):
        assert answer.status_code == 200, (request, answer.content)
        assert not words_in(rows, answer), request


@pytest.mark.once
def test_no_body_or_query_names_a_row_of_another_shop(
    rows: Rows, others: Rows, owner: CheckedClient, stranger: CheckedClient
) -> None:
    own = answers(owner, naming_a_row(rows, rows))
    assert not [(request, answer.content) for request, answer in own if answer.status_code not in GRANTED]
    responses = answers(stranger, naming_a_row(rows, others))
    assert not [(request, answer.content) for request, answer in responses if answer.status_code != 404]


@pytest.mark.once
def test_a_line_of_another_shops_list_gets_no_day(rows: Rows, others: Rows, stranger: CheckedClient) -> None:
    due = {"lines": [str(rows.line.pk)], "day": "2027-01-11", "time": "10:00"}
    answer = stranger.post(f"pull-lists/{others.list.pk}/due", due)
    assert answer.status_code == 400
    assert [error["pointer"] for error in answer.json()["errors"]] == ["/lines/0"]
    rows.line.refresh_from_db()
    assert rows.line.due_at is None
