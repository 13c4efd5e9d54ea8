"""Newer price rules are offered to an open draft with what they change; a person takes them or keeps the old ones."""

from datetime import date, timedelta
from typing import Any

import pytest
from django.utils import timezone

from quotes.queries.pricing import shop_day
from shop.models import History, RuleSet
from shop.presenters.dates import date_only
from tests.quotes.open_gearbox import open_gearbox
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

DEARER = RULES | {"labour_rates": {"mechanical": "175.00", "electrical": "180.00"}}


def day_of(stage: Stage, number: int) -> date:
    """Sets 2 and 3 are in force since three and two days ago, set 6 from tomorrow."""
    return shop_day(stage.cast.shop, timezone.now()) + timedelta(days=number - 5)


def enact(stage: Stage, rules: dict[str, Any] = DEARER, number: int = 2) -> RuleSet:
    day = day_of(stage, number)
    return RuleSet.objects.create(shop=stage.cast.shop, number=number, valid_from=day, rules=rules)


def newer(stage: Stage, number: int, declined: bool = False) -> dict[str, Any]:
    return {"number": number, "valid_from": day_of(stage, number).isoformat(), "declined": declined}


def title(stage: Stage) -> str:
    return f"Price rules of {date_only(day_of(stage, 2), day_of(stage, 5))}"


def read(stage: Stage, quote: dict[str, Any]) -> dict[str, Any]:
    body: dict[str, Any] = stage.client.get(f"quotes/{quote['id']}").json()
    return body


def compared(stage: Stage, quote: dict[str, Any]) -> Any:
    return stage.client.get(f"quotes/{quote['id']}/newer-rules")


def patch(stage: Stage, quote: dict[str, Any], **changes: Any) -> Any:
    return stage.client.patch(f"quotes/{quote['id']}", changes, seen=f'"{quote["version"]}"')


def test_a_draft_says_that_there_are_newer_rules_and_keeps_its_own(stage: Stage) -> None:
    quote = stage.quote().json()
    assert quote["rules"]["newer"] is None and compared(stage, quote).status_code == 404
    enact(stage)
    enact(stage, number=6)
    again = read(stage, quote)
    assert again["rules"]["newer"] == newer(stage, 2)
    assert (again["rules"]["number"], again["totals"]["gross"]) == (1, "3207.38")


def test_the_offer_has_total_and_margin_before_and_after(stage: Stage) -> None:
    """6.7 h mechanical at 175 and not at 165 is 67.00 more; supplies stay at their cap.

    Cost 900 + 400 + 46 of oil + 8.7 h at 60 = 1,868. Before tax 2,672.82, so 804.82 is 30.1 %; then the tax inside is
    281.50 + 255.42 + 8.00 + 0.81, so 2,728.65, and 860.65 is 31.5 %.
    """
    quote = stage.quote().json()
    enact(stage)
    comparison = compared(stage, quote).json()
    assert comparison["words"] == f"{title(stage)}: total 3,207.38 \u2192 3,274.38."
    figures = {figure["code"]: (figure["now"], figure["then"], figure["moved"]) for figure in comparison["figures"]}
    assert figures == {"total": ("3,207.38", "3,274.38", True), "margin": ("30.1 %", "31.5 %", True)}
    lines = {line["title"]: (line["now"], line["then"]) for line in comparison["lines"]}
    assert lines["Turbocharger fitted"] == ("495.00", "525.00") and "Towing electrics" not in lines
    assert comparison["stops"] is None


def test_using_them_is_a_change_that_can_be_undone(stage: Stage) -> None:
    quote = stage.quote().json()
    rules = enact(stage)
    changed = patch(stage, quote, rules=2).json()
    assert (changed["rules"]["number"], changed["rules"]["newer"], changed["totals"]["gross"]) == (2, None, "3274.38")
    rules.refresh_from_db()
    assert rules.used_at is not None
    assert History.objects.filter(verb="changed").latest("recorded_at").changes == {"rules": ["1", "2"]}
    back = patch(stage, changed, rules=1).json()
    assert (back["rules"]["number"], back["totals"]["gross"]) == (1, "3207.38")
    assert back["rules"]["newer"] == newer(stage, 2)


def test_a_draft_that_keeps_its_rules_is_quiet_until_there_are_still_newer_ones(stage: Stage) -> None:
    quote = stage.quote().json()
    enact(stage)
    declined = patch(stage, quote, rules_declined=2).json()
    assert declined["rules"]["newer"]["declined"] and declined["totals"]["gross"] == "3207.38"
    assert compared(stage, declined).status_code == 200  # the newer rules can still be compared after all
    offered = patch(stage, declined, rules_declined=None).json()
    assert not offered["rules"]["newer"]["declined"]
    declined = patch(stage, offered, rules_declined=2).json()
    enact(stage, number=3)
    assert read(stage, declined)["rules"]["newer"] == newer(stage, 3)


def test_no_other_set_is_taken(stage: Stage) -> None:
    quote = stage.quote().json()
    enact(stage, number=2)
    enact(stage, number=3)
    RuleSet.objects.create(shop=stage.cast.elsewhere, number=9, valid_from=date(2026, 1, 1), rules=DEARER)
    for number in (2, 9):
        (error,) = patch(stage, quote, rules=number).json()["errors"]
        assert (error["pointer"], error["detail"]) == (
            "/rules",
            "These price rules are not offered here. Use those in force, or those this draft had before.",
        )
    assert read(stage, quote)["rules"]["number"] == 1


def test_a_sent_version_never_changes(stage: Stage) -> None:
    sent = stage.sent()["quote"]
    enact(stage)
    again = read(stage, sent)
    assert (again["rules"]["newer"], again["rules"]["number"], again["totals"]) == (None, 1, sent["totals"])
    assert compared(stage, sent).status_code == 404
    assert patch(stage, again, rules=2).json()["type"] == "/problems/not-a-draft"


def test_a_condition_that_the_newer_rules_do_not_know_is_none(stage: Stage) -> None:
    quote = patch(stage, stage.quote().json(), condition="heavy").json()
    enact(stage, RULES | {"condition_factors": {"light": "1.10"}})
    comparison = compared(stage, quote).json()
    changed = patch(stage, quote, rules=2).json()
    assert changed["condition"] == "none" and changed["labour"]["hours"] == "8.7"
    assert {figure["code"]: figure["then"] for figure in comparison["figures"]}["hours"] == "8.7"
    assert History.objects.filter(verb="changed").latest("recorded_at").changes["condition"] == ["heavy", "none"]
    assert patch(stage, changed, rules=1, condition="heavy").json()["labour"] == quote["labour"]


def test_rules_that_cannot_price_the_draft_say_why(stage: Stage) -> None:
    quote = stage.quote().json()
    enact(stage, RULES | {"labour_rates": {"mechanical": "165.00"}})
    comparison = compared(stage, quote).json()
    assert comparison["words"] == f"{title(stage)}: this draft cannot be worked out with them."
    assert "electrical" in comparison["stops"] and comparison["figures"] == comparison["lines"] == []
    assert patch(stage, quote, rules=2).status_code == 422
    assert read(stage, quote)["rules"]["number"] == 1


def test_several_prices_are_compared_as_a_range(stage: Stage) -> None:
    """2.2 h more with an automatic gearbox, 0.4 h with a manual one: 7.1 or 8.9 h mechanical, each 10 dearer."""
    quote = open_gearbox(stage).quote().json()
    enact(stage)
    (total,) = (figure for figure in compared(stage, quote).json()["figures"] if figure["code"] == "total")
    assert (total["now"], total["then"]) == ("3,273.38 to 3,570.38", "3,344.38 to 3,659.38")
