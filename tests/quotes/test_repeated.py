"""An unchanged stage reuses the rows of the same quote; any other stage makes them by the services."""

from collections.abc import Iterator
from contextlib import contextmanager
from typing import Any

import pytest
from django.core.files.storage import default_storage, storages
from django.db import transaction
from django.utils.functional import empty

from kitting.models import Offer
from quotes.models import Line, Quote
from tests.quotes.stage import RULES, Stage


@contextmanager
def another_test(stage: Stage) -> Iterator[None]:
    """A test whose writes are rolled back at its end."""
    assert stage.watch is not None
    stage.watch.written, stage.watch.done = False, ()
    storages._storages.clear()
    default_storage._wrapped = empty
    begin = transaction.savepoint()
    yield
    transaction.savepoint_rollback(begin)


def test_the_same_rows_and_files_come_again(stage: Stage) -> None:
    seen: list[Any] = []
    for _ in range(2):
        with another_test(stage):
            sent = stage.sent()
            rows = (Quote.objects.get().pk, sorted(Line.objects.values_list("pk", flat=True)))
            paper = stage.client.get(f"quotes/{sent['quote']['id']}/paper")
            seen.append((sent, rows, paper.status_code, paper.content))
    assert seen[0] == seen[1]
    assert seen[0][1][1] and seen[0][2] == 200


def test_two_quotes_of_one_test_are_two(stage: Stage) -> None:
    assert stage.quote().json()["number"] != stage.quote().json()["number"]


def test_a_step_after_another_is_not_taken_for_the_step_alone(stage: Stage) -> None:
    with another_test(stage):
        alone = stage.quote().json()
    totals: list[Any] = []
    for _ in range(2):
        with another_test(stage):
            stage.enact(RULES | {"labour_rates": {"mechanical": "200.00", "electrical": "200.00"}})
            totals.append(stage.quote().json()["totals"])
    assert totals[0] == totals[1] != alone["totals"]


def test_what_a_test_has_written_is_in_its_quote(stage: Stage) -> None:
    with another_test(stage):
        first = stage.quote().json()
    with another_test(stage):
        Offer.objects.update(unit_cost="1.0000")
        second = stage.quote().json()
    assert first["id"] != second["id"]
    assert first["totals"] != second["totals"]


def test_nothing_is_repeated_where_a_test_patches_the_tool(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    assert stage.watch is None
