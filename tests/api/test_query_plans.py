"""What every GET reads must not grow with the rows that a workshop collects over the years."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connection

from shop.models import RuleSet
from tests.api.busy import grow, one_of_each
from tests.api.endpoints import VIEWS
from tests.cast import Cast
from tests.plans import scans, selects, steps
from tests.quotes.stage import RULES, Stage, make_stage

FEW, MANY = 100, 1000
ROW = re.compile(r"([\w-]+)/\{id\}")
QUERIES: dict[str, tuple[dict[str, str], ...]] = {
    "customers": ({}, {"q": "customer"}),
    "find": ({"q": "customer"}, {"q": "vehicle"}, {"q": "kit"}, {"q": "Q-7"}),
    "imports": ({}, {"kind": "customers"}),
    "jobs": ({}, {"state": "open"}),
    "jobs/{id}/circuits/{name}/mix": ({"drained": "9.6", "reading": "42"},),
    "kits": ({}, {"q": "kit"}),
    "pull-lists": ({}, {"state": "open"}),
    "quotes": ({}, {"state": "draft"}, {"state": "sent"}, {"state": "lapsed"}, {"state": "accepted"}),
    "quotes/{id}/how": ({"key": "labour:SETUP"},),
    "vehicles": ({}, {"q": "vehicle"}),
}
"""The queries with which a path is asked, where none is not all."""

GROWS: tuple[tuple[str, dict[str, str]], ...] = (
    *(("find", query) for query in QUERIES["find"]),  # looks into the middle of names, too
    ("quotes", {"state": "sent"}),  # while fewer than a page are valid, it walks all issues of the shop
)
"""What does grow with the rows, known and not yet better."""

PATHS = sorted(path.split("{slug}/")[1] for path, view in VIEWS.items() if hasattr(view, "get"))


@pytest.fixture
def stage(cast: Cast) -> Stage:
    stage = make_stage(cast)
    RuleSet.objects.filter(shop=cast.shop).update(rules={**RULES, "first_fit_factor": "1.25"})
    return stage


def addresses(path: str, ids: dict[str, list[Any]]) -> Iterator[str]:
    """The path for every row of its collection."""
    collection = ROW.match(path)
    path = path.replace("{name}", "coolant")
    for id in ids[collection[1]] if collection else [None]:
        yield path.replace("{id}", str(id))


def test_no_get_reads_a_table_of_the_shop_from_end_to_end(stage: Stage) -> None:
    ids = one_of_each(stage)
    grow(stage, MANY)
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("ANALYZE")
    client, scanned = stage.cast.signed_in("manager"), []
    for path in PATHS:
        for query in QUERIES.get(path, ({},)):
            statuses = []
            for address in addresses(path, ids):
                with selects() as executed:
                    statuses.append(client.get(address, query).status_code)
                scanned += [f"{path} {query}: {how}: {each[0]}" for each in executed for how in scans(each)]
            assert 200 in statuses, (path, query, statuses)
    assert not scanned, "\n".join(scanned)


@pytest.mark.skipif(connection.vendor != "sqlite", reason="only SQLite counts its steps")
def test_no_get_takes_twice_the_steps_for_ten_times_the_rows(stage: Stage) -> None:
    ids = one_of_each(stage)
    grow(stage, FEW)
    few = costs(stage, ids)
    grow(stage, MANY - FEW)
    many = costs(stage, ids)
    grown = [f"{asked}: {few[asked]} -> {now}" for asked, now in many.items() if now > 2 * few[asked] + 10]
    assert not grown, "\n".join(grown)


def costs(stage: Stage, ids: dict[str, list[Any]]) -> dict[Any, int]:
    """Hundreds of steps of every GET, by its address and query."""
    client, found = stage.cast.signed_in("manager"), {}
    for path in PATHS:
        for query in QUERIES.get(path, ({},)):
            if (path, query) in GROWS:
                continue
            for address in addresses(path, ids):
                with steps() as count:
                    client.get(address, query)
                found[address, *query.items()] = count[0]
    return found
