"""The price rules on a screen: every figure of the set in force, and the history of sets."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone

from shop.models import RuleSet
from shop.services.rules import add_rules
from tests.cast import Cast
from tests.quotes.stage import RULES
from tests.quotes.test_query_counts import queries

pytestmark = pytest.mark.once

TODAY = timezone.localdate


def add(cast: Cast, valid_from: date, **changes: Any) -> RuleSet:
    return add_rules(actor=cast.acting("manager"), rules=RULES | changes, valid_from=valid_from)


def fields(answer: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {field["path"]: field for section in answer["sections"] for field in section["fields"]}


def test_the_set_in_force_has_every_figure_with_what_it_does(cast: Cast) -> None:
    manager = cast.signed_in("manager")
    assert manager.get("rules/in-force").status_code == 404
    add(cast, date(2026, 1, 1))
    answer = manager.get("rules/in-force").json()
    assert (answer["number"], answer["state"], answer["by"]) == (1, "in_force", "Manager")
    assert (answer["words"], answer["changes"], answer["before"]) == (["The first rules of the workshop"], [], None)
    assert [section["title"] for section in answer["sections"]][:3] == [
        *("Labour", "Prices of parts", "Shop supplies and fees"),
    ]
    figures = fields(answer)
    assert all(field["title"] and field["words"] for field in figures.values())
    supplies = figures["supplies.rate"]
    assert (supplies["title"], supplies["value"], supplies["shown"]) == ("Shop supplies", "5", "5 %")
    assert (figures["validity_days"]["shown"], figures["retention_years"]["shown"]) == ("14 days", "7 years")
    assert (figures["supplies.cap"]["shown"], figures["currency_days"]["shown"]) == ("48.00", "not set")
    assert figures["prices_include_tax"]["shown"] == "yes" and figures["markup.step"]["shown"] == "not rounded"
    assert figures["labour"]["rows"][0] == {"skill": "mechanical", "rate": "165.00", "cost": "60", "tax_class": ""}
    assert figures["markup.step"]["choices"][1] == {"value": "0.05", "title": "0.05"}
    assert figures["labour"]["columns"][0] == {"name": "skill", "title": "Skill", "kind": "text", "choices": []}


def test_the_history_says_who_changed_what_and_which_set_is_in_force(cast: Cast) -> None:
    add(cast, date(2026, 1, 1))
    add(cast, date(2026, 9, 1), labour_rates={"mechanical": "175", "electrical": "180"}, fees=[], validity_days=21)
    day = TODAY() + timedelta(days=3)
    add(cast, day, validity_days=30)
    add(cast, day, validity_days=28, offer="estimate", technicians=2, efficiency="0.9", wheel_check="50 km")
    rows = cast.signed_in("manager").get("rules").json()["items"]
    assert [(row["number"], row["state"]) for row in rows] == [
        *((4, "later"), (3, "replaced")),
        *((2, "in_force"), (1, "replaced")),
    ]
    assert rows[2]["words"] == [
        "Skills, mechanical, Rate: 165.00 \u2192 175.00",
        "Fees, oil: removed, was Used oil, 0.8, fee, engine oil",
        "A quote can be accepted for: 14 days \u2192 21 days",
    ]
    assert rows[0]["words"][-1] == "and 2 more" and all(row["added_at"] for row in rows)
    second = cast.signed_in("manager").get(f"rules/{rows[2]['id']}").json()
    assert second["before"] == rows[3]["id"]
    assert second["changes"][0] == {
        **{"path": "labour", "title": "Skills, mechanical, Rate"},
        **{"before": "165.00", "after": "175.00"},
    }
    assert cast.signed_in("manager").get("rules", {"limit": 1}).json()["items"] == rows[:1]


def test_a_set_differs_from_the_one_whose_place_it_takes(cast: Cast) -> None:
    """The set of next week has the lower number, but a change from today is not compared with it."""
    first = add(cast, date(2026, 1, 1))
    add(cast, TODAY() + timedelta(days=7), validity_days=30)
    add(cast, TODAY(), validity_days=21)
    newest, later, _ = cast.signed_in("manager").get("rules").json()["items"]
    assert newest["words"] == ["A quote can be accepted for: 14 days \u2192 21 days"]
    assert later["words"] == ["A quote can be accepted for: 14 days \u2192 30 days"]
    assert cast.signed_in("manager").get(f"rules/{newest['id']}").json()["before"] == str(first.pk)


def test_the_number_of_queries_does_not_grow_with_the_sets(cast: Cast) -> None:
    manager = cast.signed_in("manager")
    add(cast, date(2026, 1, 1))
    reads = {path: (lambda path=path: manager.get(path)) for path in ("rules", "rules/in-force")}
    few = {path: queries(read) for path, read in reads.items()}
    for days in range(1, 9):
        add(cast, TODAY() + timedelta(days=days), validity_days=days)
    assert {path: queries(read) for path, read in reads.items()} == few
