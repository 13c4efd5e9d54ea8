"""A manager changes figures of the price rules from a day on; nothing else changes."""

from datetime import date, timedelta
from typing import Any
from zoneinfo import ZoneInfo

import pytest
from django.utils import timezone

from shop.models import History, RuleSet
from tests.api.test_rule_sets import add, fields
from tests.cast import Cast
from tests.factories import ConsumableFactory
from tests.quotes.stage import RULES

pytestmark = pytest.mark.once


def today() -> date:
    """The day in the zone of the cast's workshop."""
    return timezone.localdate(timezone=ZoneInfo("Europe/Berlin"))


def post(cast: Cast, base: RuleSet | None, **change: Any) -> Any:
    body = {"base": str(base.pk) if base else None, "valid_from": today().isoformat()} | change
    return cast.signed_in("manager").post("rules", body)


def refusal(answer: Any) -> tuple[str, str]:
    assert answer.status_code == 400, answer.content
    (error,) = answer.json()["errors"]
    return error["pointer"], error["detail"]


def test_what_was_typed_becomes_the_next_set(cast: Cast) -> None:
    first = add(cast, date(2026, 1, 1))
    rates = [{"skill": "mechanical", "rate": "170.00", "cost": "60"}, {"skill": "paint", "rate": "99"}]
    answer = post(cast, first, figures={"supplies.rate": "4", "supplies.cap": ""}, tables={"labour": rates})
    assert answer.status_code == 201, answer.content
    body = answer.json()
    assert (body["number"], body["state"], body["by"]) == (2, "in_force", "Manager")
    assert [(change["title"], change["before"], change["after"]) for change in body["changes"]] == [
        ("Skills, mechanical, Rate", "165.00", "170.00"),
        ("Skills, electrical", "180.00, 60", None),
        ("Skills, paint", None, "99.00"),
        ("Shop supplies", "5 %", "4 %"),
        ("Shop supplies at most", "48.00", "not set"),
    ]
    stored = RuleSet.objects.get(number=2).rules
    assert stored["supplies"] == {"basis": ["labour"], "rate": "0.04", "tax_class": "supplies"}
    assert {name: stored[name] for name in ("taxes", "fees", "words")} == {
        name: RULES[name] for name in ("taxes", "fees", "words")
    }
    first.refresh_from_db()
    assert first.rules == RULES
    assert History.objects.filter(subject="ruleset").latest("recorded_at").verb == "changed"


def test_a_fee_on_a_family_that_no_consumable_has_is_refused_where_it_is_typed(cast: Cast) -> None:
    first = add(cast, date(2026, 1, 1), fees=[fee("gone")])
    typed = {"tables": {"fees": [fee("gone"), fee("engine oils")]}}
    assert post(cast, first, **typed).status_code == 201  # no consumables yet: nothing to compare with
    ConsumableFactory(shop=cast.shop, family="engine oil")
    ConsumableFactory(shop=cast.shop, family="grease", archived=True)
    second = RuleSet.objects.get(number=2)
    more = [fee("gone"), fee("engine oils"), fee("engine oil"), fee("grease")]
    where, words = refusal(post(cast, second, tables={"fees": more}))
    assert (where, "or one of: engine oil." in words) == ("/tables/fees/3/per", True)
    assert refusal(post(cast, second, part={"fees": more}))[0] == "/part"
    assert post(cast, second, tables={"fees": more[:3]}).status_code == 201
    assert post(cast, RuleSet.objects.get(number=3), again=str(first.pk)).status_code == 201


def fee(per: str) -> dict[str, str]:
    return {"code": per.replace(" ", "-"), "title": per, "amount": "1.50", "tax_class": "part", "per": per}


def test_a_part_of_the_rules_changes_only_what_it_names(cast: Cast) -> None:
    first = add(cast, date(2026, 1, 1))
    answer = post(cast, first, part={"labour_rates": {"mechanical": "175"}})
    assert [change["path"] for change in answer.json()["changes"]] == ["labour"]
    assert RuleSet.objects.get(number=2).rules == RULES | {
        "labour_rates": RULES["labour_rates"] | {"mechanical": "175"},
    }
    second = RuleSet.objects.get(number=2)
    assert refusal(post(cast, second, part={"labour_rate": {}}))[1].startswith("The file has fields")


def test_the_set_before_applies_again(cast: Cast) -> None:
    first = add(cast, date(2026, 1, 1))
    second = add(cast, date(2026, 9, 1), validity_days=21)
    answer = post(cast, second, again=str(first.pk))
    assert (answer.status_code, fields(answer.json())["validity_days"]["value"]) == (201, "14")
    assert RuleSet.objects.get(number=3).rules == RULES
    foreign = RuleSet.objects.create(shop=cast.elsewhere, number=7, valid_from=date(2026, 1, 1), rules=RULES)
    third = RuleSet.objects.get(number=3)
    assert refusal(post(cast, third, again=str(foreign.pk)))[0] == "/again"


@pytest.mark.parametrize(
    ("change", "pointer", "words"),
    [
        ({"figures": {"supplies.rate": "four"}}, "/figures/supplies.rate", "This is not a number."),
        ({"figures": {"validity_days": "1.5"}}, "/figures/validity_days", "Enter a whole number."),
        ({"figures": {"ceiling.kind": "maximum"}}, "/figures/ceiling.maximum", "Enter something"),
        ({"figures": {"markup.mode": ""}}, "/figures/markup.mode", "Enter something"),
        ({"tables": {"labour": [{"skill": "a", "rate": "9.999"}]}}, "/tables/labour/0/rate", "This is too fine."),
        ({"tables": {"markup.bands": [{"up_to": "9"}]}}, "/tables/markup.bands/0/x", "Enter something"),
        (
            {"tables": {"taxes": [{"code": "A", "rate": "5", "classes": "part", "on_top_of": "B"}]}},
            *("/tables/taxes", "There is no tax"),
        ),
        ({"figures": {"colour": "red"}}, "/figures/colour", "There is no such figure"),
    ],
)
def test_it_refuses_at_the_figure(cast: Cast, change: dict[str, Any], pointer: str, words: str) -> None:
    first = add(cast, date(2026, 1, 1))
    where, detail = refusal(post(cast, first, **change))
    assert (where, detail.startswith(words)) == (pointer, True), detail
    assert RuleSet.objects.count() == 1


def test_it_refuses_a_day_that_is_over_and_a_change_of_another_set(cast: Cast) -> None:
    first = add(cast, date(2026, 1, 1))
    change = {"figures": {"validity_days": "30"}}
    yesterday = (today() - timedelta(days=2)).isoformat()
    assert refusal(post(cast, first, valid_from=yesterday, **change))[0] == "/valid_from"
    add(cast, today() + timedelta(days=3), validity_days=21)
    later = (today() + timedelta(days=4)).isoformat()
    assert post(cast, first, valid_from=later, **change).json()["type"] == "/problems/rules-changed-meanwhile"
    assert post(cast, first, figures={"validity_days": "14"}).json()["type"] == "/problems/rules-unchanged"
    assert RuleSet.objects.count() == 2
