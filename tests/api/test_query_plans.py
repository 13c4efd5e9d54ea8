"""A GET must not read more rows as a workshop collects more over the years."""

import re
from collections.abc import Iterator
from typing import Any

import pytest
from django.db import connection

from quotes.access import STATES
from quotes.queries import capacities
from shop.models import RuleSet
from shop.queries import search
from tests.api.busy import grow
from tests.api.endpoints import VIEWS
from tests.api.samples import one_of_each
from tests.cast import Cast
from tests.plans import Select, scans, selects, steps
from tests.quotes.stage import RULES, Stage, make_stage

FEW, MANY = 50, 1000
PAGE = 5
"""The rows of a page: each list and state has more already in the smaller shop."""

ROW = re.compile(r"([\w-]+)/\{id\}")
FOUND = ("customer", "vehicle", "kit", "p1", "part", "omer", "nowhere", "kit 1", "kit part", "Q-7", "99999999")
ROWS = "id of "
QUERIES: dict[str, tuple[dict[str, str], ...]] = {
    "customers": ({}, {"q": "customer"}),
    "customers/{id}/merge": ({"other": f"{ROWS}namesakes"},),
    "find": tuple({"q": typed} for typed in FOUND),
    "imports": ({}, {"kind": "customers"}),
    "jobs": ({}, {"state": "open"}),
    "jobs/{id}/releases/{release}/ubl": ({"supplier": f"{ROWS}suppliers by name"},),
    "kits": ({}, {"q": "kit"}),
    "lists": tuple({"kind": kind} for kind in ("consumables", "customers", "labour", "vehicles")),
    "lists/examples": ({"kind": "kit"},),
    "money": ({"month": "2026-11"},),
    "outside-work": ({}, {"q": "lamb"}, {"q": "nowhere"}),
    "pull-lists": ({}, {"state": "open"}, {"jobs": "open"}),
    "quotes": (
        *({}, {"q": "customer"}, {"q": "vehicle kit"}, {"q": "nowhere"}, {"q": "Q-7"}),
        *({"state": state} for state in STATES),
        *({noun: f"{ROWS}{noun}s"} for noun in ("customer", "vehicle", "kit", "part")),
    ),
    "quotes/{id}/how": ({"key": "labour:SETUP"},),
    "replaced-numbers": ({}, {"q": "part"}),
    "vehicles": ({}, {"q": "vehicle"}),
}
"""The queries of a path that is also read with parameters. A value that begins with `ROWS` is an id."""

# A list that is taken out has every row; an operation is checked against all others, and packs against all codes and
# consumables, as in a file.
OF_EVERY_ROW = {"lists", "operations", "consumables/offers"}

PATHS = sorted(path.split("{slug}/")[1] for path, view in VIEWS.items() if hasattr(view, "get"))


@pytest.fixture
def stage(cast: Cast) -> Stage:
    stage = make_stage(cast)
    RuleSet.objects.filter(shop=cast.shop).update(rules={**RULES, "first_fit_factor": "1.25"})
    return stage


def addresses(path: str, ids: dict[str, list[Any]]) -> Iterator[str]:
    """The path for every row of its collection."""
    collection = ROW.match(path)
    if path.startswith("quotes/"):
        path = path.replace("{photograph}", str(ids["line photograph"][0]))
    for name in ("line", "photograph", "release"):
        path = path.replace(f"{{{name}}}", str(ids[name][0]))
    for id in ids[collection[1]] if collection else [None]:
        yield path.replace("{id}", str(id))


def kinds_of(address: str) -> tuple[str, str]:
    """Its collection, and that with its last part: ("consumables", "consumables/offers")."""
    first, *_, last = address.split("/") * 2
    return first, f"{first}/{last}"


def test_no_get_reads_more_as_the_shop_grows(stage: Stage, monkeypatch: pytest.MonkeyPatch) -> None:
    """One shop is grown once for both measurements. Bounded scans reach their bound already at the smaller size."""
    monkeypatch.setattr(search, "LOOKED_THROUGH", FEW)
    monkeypatch.setattr(search, "RARE", FEW)
    monkeypatch.setattr(capacities, "LOOKED_AT", FEW)
    ids = one_of_each(stage)
    grow(stage, FEW)
    counts_steps = connection.vendor == "sqlite"
    few = ask(stage, ids)[0] if counts_steps else {}
    grow(stage, MANY - FEW)
    if not counts_steps:
        with connection.cursor() as cursor:
            cursor.execute("ANALYZE")
    many, executed = ask(stage, ids)
    by_sql = {select[0]: (address, select) for address, selects in executed.items() for select in selects}
    read_whole = [f"{address}: {how}: {select[0]}" for address, select in by_sql.values() for how in scans(select)]
    assert not read_whole, "\n".join(read_whole)
    grown = [
        f"{address}: {steps} -> {many[address]}"
        for address, steps in few.items()
        if OF_EVERY_ROW.isdisjoint(kinds_of(address[0])) and many[address] > 2 * steps + 10
    ]
    assert not grown, "\n".join(grown)


def with_ids(query: dict[str, str], ids: dict[str, list[Any]]) -> dict[str, str]:
    """The query with the first id of its collection in place of "id of customers"."""
    begins = len(ROWS)
    return {name: str(ids[part[begins:]][0]) if part.startswith(ROWS) else part for name, part in query.items()}


Asked = tuple[Any, ...]
"""An address and its query."""


def ask(stage: Stage, ids: dict[str, list[Any]]) -> tuple[dict[Asked, int], dict[Asked, list[Select]]]:
    """(hundreds of steps, SELECTs) of every GET."""
    client, taken, executed = stage.cast.signed_in("manager"), dict[Asked, int](), dict[Asked, list[Select]]()
    for path in PATHS:
        page = {"limit": PAGE} if VIEWS[f"/api/v1/shops/{{slug}}/{path}"].paginated else {}
        for query in QUERIES.get(path, ({},)):
            statuses = []
            for address in addresses(path, ids):
                parts = (address, *query.items())
                with selects() as executed[parts], steps() as count:
                    statuses.append(client.get(address, {**with_ids(query, ids), **page}).status_code)
                taken[parts] = count[0]
            assert 200 in statuses, (path, query, statuses)
    return taken, executed
