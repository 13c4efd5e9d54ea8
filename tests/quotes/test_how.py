"""Explanations of figures: the rule in plain words and the numbers of the line."""

import json
from collections.abc import Iterator
from decimal import Decimal
from typing import Any

import pytest
from django.db import connection
from django.test.utils import CaptureQueriesContext
from django.utils import timezone

from kitting.models import KitRevision, Need
from quotes.models import Line, Revision
from quotes.presenters.customer import for_customer
from quotes.presenters.explanations import explanations
from quotes.queries import frozen
from quotes.queries.pricing import figures
from shop.models import Operation, RuleSet
from tests.costs import keys_of
from tests.factories import PartFactory
from tests.quotes.stage import RULES, Stage
from tests.quotes.test_query_counts import grow, queries

pytestmark = pytest.mark.once


def how(stage: Stage, quote: dict[str, Any], key: str) -> dict[str, Any]:
    answer = stage.client.get(f"quotes/{quote['id']}/how?key={key}")
    assert answer.status_code == 200, answer.content
    return answer.json()


def steps(explanation: dict[str, Any]) -> list[tuple[str, str]]:
    return [(step["words"], step["figure"]) for step in explanation["steps"]]


def keys(quote: dict[str, Any]) -> Iterator[str]:
    """Every figure a screen shows of a quote."""
    for group in (quote["kits"], quote["labour"]["operations"], quote["needs"], quote["fees"]):
        yield from (row["key"] for row in group)
    yield from (f"saves:{kit['line']}" for kit in quote["kits"])
    yield from (f"extra:{extra['line']}" for extra in quote["extras"])
    yield from (f"tax:{tax['code']}" for tax in quote["totals"]["taxes"])
    yield from ("labour", "total")


def in_corrosion(stage: Stage, *kits: Any) -> dict[str, Any]:
    first = stage.quote(*kits)
    return stage.client.patch(f"quotes/{first.json()['id']}", {"condition": "light"}, seen=first).json()


def with_rules(**changed: Any) -> None:
    RuleSet.objects.filter(used_at=None).update(rules=RULES | changed)


def test_every_figure_of_a_quote_says_how_it_is_computed(stage: Stage) -> None:
    quote = stage.quote().json()
    stage.client.post(
        f"quotes/{quote['id']}/lines",
        {"kind": "text", "title": "Wheel alignment", "unit_price": "96", "tax_class": "part"},
    )
    quote = stage.client.get(f"quotes/{quote['id']}").json()
    titles = {line["key"]: line["title"] for line in (*quote["kits"], *quote["needs"], *quote["fees"])}
    for key in keys(quote):
        explanation = how(stage, quote, key)
        assert explanation["key"] == key and explanation["rule"] and explanation["steps"] and explanation["result"], key
        assert explanation["title"] == titles.get(key, explanation["title"])


def test_hours_are_counted_once_with_the_numbers_of_the_line(stage: Stage) -> None:
    explanation = how(stage, in_corrosion(stage), "labour:BUMPER")
    assert explanation["title"] == "Front bumper off and on" and explanation["result"] == "2.1 h, 346.50"
    assert steps(explanation) == [
        ("A, Turbocharger kit, needs", "2.4 h"),
        ("B, Towing kit, needs", "2.0 h"),
        ("Done once: the longest of 2", "2.4 h"),
        ("Shared with Turbocharger fitted", "− 0.5 h"),
        ("+10 % for corroded fasteners", "2.09 h"),
        ("Rounded to 0.1 h", "2.1 h"),
        ("All mechanical work: 6.9 h at 165.00", "1,138.50"),
        ("This line's share: 2.1 h of 6.9 h", "346.50"),
    ]
    assert "the longest of their hours counts" in explanation["rule"][0]


def test_a_rule_that_does_not_touch_the_line_is_not_told(stage: Stage) -> None:
    words = " ".join(how(stage, in_corrosion(stage), "labour:WIRING")["rule"])
    assert "Corrosion" not in words and "share a piece of work" not in words and "rounded to 0.1" in words
    assert "several kits" not in words and "anew" not in words


def test_a_first_fit_says_its_factor(stage: Stage) -> None:
    with_rules(first_fit_factor="1.25")
    explanation = how(stage, stage.quote().json(), "labour:WIRING")
    assert steps(explanation)[:2] == [
        ("B, Towing kit, first fit here: 2.0 h × 1.25", "2.5 h"),
        ("Rounded to 0.1 h", "2.5 h"),
    ]
    assert "for the first time" in explanation["rule"][0]


def test_work_done_for_each_kit_is_added(stage: Stage) -> None:
    Operation.objects.filter(code="SETUP").update(sharing="each")
    quote = stage.quote().json()
    explanation = how(stage, quote, "labour:SETUP")
    assert ("Done 2 times: their sum", "3.3 h") in steps(explanation) and "separately for every kit" in explanation[
        "rule"
    ][0]
    alone = stage.quote(stage.turbo).json()
    assert not [
        sentence for sentence in how(stage, alone, "labour:SETUP")["rule"] if "separately for every kit" in sentence
    ]


def test_a_persons_own_hours_stand_last_with_the_reason(stage: Stage) -> None:
    first = stage.quote()
    path = f"quotes/{first.json()['id']}"
    stage.client.put(f"{path}/overrides/labour:TURBO", {"value": "2.5", "because": "done twice before"}, seen=first)
    explanation = how(stage, first.json(), "labour:TURBO")
    assert ("Worked out", "3.0 h") in steps(explanation) and ("Replaced by hand: done twice before", "2.5 h") in steps(
        explanation
    )
    assert explanation["result"].startswith("2.5 h, ")


def test_hours_set_by_hand_are_not_in_the_hours_of_a_kit_alone_and_it_says_so(stage: Stage) -> None:
    first = stage.quote()
    quote = first.json()
    untouched = how(stage, quote, "labour")
    assert "a person has set" not in " ".join(untouched["rule"])
    alone = [step for step in steps(untouched) if step[0].endswith("alone")]
    path = f"quotes/{quote['id']}/overrides/labour:TURBO"
    stage.client.put(path, {"value": "5.0", "because": "seized"}, seen=first)
    explanation = how(stage, quote, "labour")
    assert "on its own are as worked out" in " ".join(explanation["rule"])
    by_words = dict(steps(explanation))
    assert [step for step in steps(explanation) if step[0].endswith("alone")] == alone
    assert by_words["On one visit"] == "8.7 h"
    assert (by_words["Not counted twice"], by_words["Changed by hand"]) == ("− 3.5 h", "+ 2.0 h")
    assert by_words["The visit then takes"] == "10.7 h" and explanation["result"].startswith("10.7 h, ")

    turbo, towing = (how(stage, quote, f"saves:{kit['line']}") for kit in quote["kits"])
    assert "on its own are as worked out" in turbo["rule"][1] and len(towing["rule"]) == 1
    assert "Of that stays, because other kits need it too" not in dict(steps(turbo))


def test_the_price_of_a_kit_says_nothing_of_taking_it_off(stage: Stage) -> None:
    explanation = how(stage, (quote := stage.quote().json()), quote["kits"][0]["key"])
    (rule,) = explanation["rule"]
    assert rule.endswith("and the price bands.")
    assert steps(explanation)[0] == ("Price from the bands", "1,110.00") and len(steps(explanation)) == 2
    assert "Bought in USD, rate of " in steps(explanation)[1][0] and "5 days old" in steps(explanation)[1][0]
    assert explanation["result"] == "1,110.00"


def test_taking_a_kit_off_is_worked_from_the_whole_with_and_without_it(stage: Stage) -> None:
    quote = stage.quote().json()
    kit = quote["kits"][0]
    explanation = how(stage, quote, f"saves:{kit['line']}")
    by_words = dict(steps(explanation))
    without = stage.quote(stage.towing).json()
    assert by_words["Hours of the whole quote with it"] == f"{quote['labour']['hours']} h"
    assert by_words["Less the hours of the whole quote without it"] == f"− {without['labour']['hours']} h"
    assert by_words["Saved without it, in hours"] == f"{kit['saves_hours']} h"
    assert by_words["Charged for it alone"] == f"{kit['alone_hours']} h"
    assert (
        by_words["Less the whole quote without it, tax included"].replace(",", "") == f"− {without['totals']['gross']}"
    )
    assert by_words["Saved without it, tax included"].replace(",", "") == kit["saves_amount"]
    assert explanation["title"] == "Without Turbocharger kit"
    assert explanation["result"].replace(",", "") == f"{kit['saves_hours']} h {kit['saves_amount']}"


def test_a_need_says_its_packs_what_is_left_and_the_next_best(stage: Stage) -> None:
    quote = stage.quote().json()
    explanation = how(stage, quote, quote["needs"][0]["key"])
    assert steps(explanation) == [
        ("100 % of engine oil, 6.1 L", "6.1 L"),
        ("1 × Part OIL-5", "45.00"),
        ("2 × Part OIL-1, 12.00 each", "24.00"),
        ("These packs together", "69.00"),
        ("Left over", "0.9 L"),
        ("Next best: 1 + 1 + 1 + 1 + 1 + 1 + 1 L", "+ 15.00"),
    ]
    assert not [sentence for sentence in explanation["rule"] if "the kits need" in sentence]


def test_nothing_left_is_no_step(stage: Stage) -> None:
    stage.vehicle.capacities = {"engine oil": "6"}
    stage.vehicle.save()
    quote = stage.quote().json()
    by_words = dict(steps(how(stage, quote, quote["needs"][0]["key"])))
    assert "Left over" not in by_words and by_words["These packs together"] == "57.00"


ASKED = "Kit A needs, for Turbocharger fitted"


@pytest.mark.parametrize(
    ("rule", "of", "quantity", "line"),
    [
        ("per_fastener", "8", "0.5", ("Kit A needs, for Turbocharger fitted: 8 fasteners, 0.5 L each", "4 L")),
        ("bead", "3", "1.9", (f"{ASKED}: 1.9 m of a 3 mm bead, × 1.25 for what stays in the nozzle", "16.8 L")),
        ("fixed", "", "2.5", (ASKED, "2.5 L")),
        ("refill", "coolant", "0.6", ("To order: 3.55 L, 5 % allowance, and 50 % of 0.5 L top-up", "3.978 L")),
        ("refill_water", "coolant", "0.6", ("Water: 6.5 L − 3.25 L concentrate", "3.25 L")),
    ],
)
def test_each_rule_of_a_need_shows_its_numbers(
    stage: Stage, rule: str, of: str, quantity: str, line: tuple[str, str]
) -> None:
    stage.vehicle.capacities = {"coolant": "10"}
    stage.vehicle.save()
    Need.objects.update(rule=rule, basis=of, quantity=Decimal(quantity))
    quote = stage.quote().json()
    assert line in steps(how(stage, quote, quote["needs"][0]["key"]))


def test_needs_of_shared_work_say_that_the_most_counts(stage: Stage) -> None:
    need = Need.objects.get()
    Need.objects.update(rule="fixed", basis="", quantity=Decimal("2"))
    Need.objects.create(
        shop=stage.cast.shop,
        revision=KitRevision.objects.get(kit=stage.towing),
        position=1,
        consumable=need.consumable,
        quantity=Decimal("3"),
        operation=Operation.objects.get(code="SETUP"),
    )
    Need.objects.filter(pk=need.pk).update(operation=Operation.objects.get(code="SETUP"))
    quote = stage.quote().json()
    explanation = how(stage, quote, quote["needs"][0]["key"])
    assert steps(explanation)[:3] == [
        ("Kit A needs, for Set-up, protect, road test", "2 L"),
        ("Kit B needs, for Set-up, protect, road test", "3 L"),
        ("Needed once: the largest amount of A and B", "3 L"),
    ]


def refilled(stage: Stage, rule: str) -> dict[str, Any]:
    """A draft whose kit A makes a coolant circuit of 9.8 L larger by 0.4 L."""
    stage.vehicle.capacities = {"coolant": "9.8"}
    stage.vehicle.save()
    Need.objects.update(rule=rule, basis="coolant", quantity=Decimal("0.4"))
    quote: dict[str, Any] = stage.quote().json()
    return quote


def test_a_circuit_is_drained_of_what_it_held_before_the_kits_make_it_larger(stage: Stage) -> None:
    quote = refilled(stage, "refill")
    explanation = how(stage, quote, quote["needs"][0]["key"])
    assert steps(explanation)[:5] == [
        ("The coolant circuit holds", "9.8 L"),
        ("Drained: 65 % of the 9.8 L it held before, from the price rules", "6.37 L"),
        ("Left in it, 50 % strong", "3.43 L"),
        ("With the 0.4 L that the kits add, it then holds", "10.2 L"),
        ("To add: 10.2 L − 3.43 L", "6.77 L"),
    ]
    assert any("includes an allowance" in sentence for sentence in explanation["rule"])
    order = dict(steps(explanation))["To order: 3.385 L, 5 % allowance, and 50 % of 0.5 L top-up"]
    assert order == "3.804 L"
    assert "order 3.8 L, including allowance and top-up" in quote["needs"][0]["why"][0]  # as people pour it


def test_water_is_taken_as_it_is_mixed(stage: Stage) -> None:
    quote = refilled(stage, "refill_water")
    rule = " ".join(how(stage, quote, quote["needs"][0]["key"])["rule"])
    assert "Water is ordered as it is mixed, with no allowance" in rule and "includes an allowance" not in rule


def test_what_a_kit_asks_beside_a_filling_stands_in_the_short_reasons(stage: Stage) -> None:
    need = Need.objects.get()
    fields = {"shop": stage.cast.shop, "consumable": need.consumable, "quantity": Decimal("0.3"), "position": 1}
    Need.objects.create(revision=KitRevision.objects.get(kit=stage.towing), **fields)
    quote = stage.quote().json()
    assert quote["needs"][0]["why"][:2] == ["engine oil: 6.1 L", "and 0.3 L more for B"]
    explanation = how(stage, quote, quote["needs"][0]["key"])
    assert ("Kit B needs", "0.3 L") in steps(explanation) and "for the whole job" in explanation["rule"][0]


def test_fees_supplies_taxes_and_the_total_add_up_in_words(stage: Stage) -> None:
    quote = stage.quote().json()
    assert ("6.1 × 0.80", "4.88") in steps(how(stage, quote, "fee:oil"))
    labour = quote["labour"]["amount"]
    assert ("At most", "48.00") in steps(how(stage, quote, "supplies"))
    assert ("Lines taxed as labour", f"{Decimal(labour):,}") in steps(how(stage, quote, "supplies"))
    assert ("Inside 48.00 taxed as supplies: × 20 / 120", "8.00") in steps(how(stage, quote, "tax:VAT"))
    assert how(stage, quote, "total")["result"].replace(",", "") == quote["totals"]["gross"]


def test_a_tax_on_top_of_another_says_so(stage: Stage) -> None:
    classes = ["part", "labour", "supplies", "fee"]
    first = {"code": "A", "title": "First tax", "rate": "0.05", "classes": classes, "on_top_of": []}
    second = {"code": "B", "title": "Second tax", "rate": "0.10", "classes": classes, "on_top_of": ["A"]}
    with_rules(taxes=[first, second], prices_include_tax=False)
    quote = stage.quote().json()
    explanation = how(stage, quote, "tax:B")
    taxes = {tax["code"]: tax["amount"] for tax in quote["totals"]["taxes"]}
    assert "on top of First tax" in explanation["rule"][1]
    assert ("The tax it is charged on", taxes["A"]) in steps(explanation)
    base = Decimal(quote["totals"]["net"]) + Decimal(taxes["A"])
    assert (f"10 % of {base:,}", taxes["B"]) in steps(explanation)


def test_no_cost_is_in_it_and_the_customer_gets_none_of_it(stage: Stage) -> None:
    stage.sent()
    revision = Revision.objects.get()
    content = frozen.read(revision)
    assert not {key for key in keys_of(content["how"]) if "cost" in key or "margin" in key}
    text = json.dumps(content["how"])
    for line in Line.objects.filter(revision=revision, cost__isnull=False).exclude(kind=Line.Kind.LABOUR):
        for cost in (f"{line.cost:,.2f}", f"{line.cost:.2f}"):
            assert f'"{cost}"' not in text and f" {cost}" not in text, line.title
    assert "how" not in for_customer(content)


def test_it_is_for_the_counter_and_the_office(stage: Stage) -> None:
    quote = stage.quote().json()
    path = f"quotes/{quote['id']}/how?key=total"
    for role, status in (("advisor", 200), ("manager", 200), ("parts", 403), ("technician", 403)):
        assert stage.cast.signed_in(role).get(path).status_code == status, role


def test_an_unknown_figure_names_those_there_are(stage: Stage) -> None:
    quote = stage.quote().json()
    for query in ("?key=labour:NONE", ""):
        answer = stage.client.get(f"quotes/{quote['id']}/how{query}")
        assert answer.status_code == 400
        assert "labour:SETUP" in answer.json()["errors"][0]["detail"]


def test_it_costs_the_database_no_more_for_more_rows(stage: Stage) -> None:
    small = stage.quote(stage.turbo).json()
    few = queries(lambda: stage.client.get(f"quotes/{small['id']}/how?key=total"))
    grow(stage)
    large = stage.quote().json()
    assert queries(lambda: stage.client.get(f"quotes/{large['id']}/how?key=total")) <= few


@pytest.mark.parametrize(("days", "codes"), [(4, ["rate_old"]), (5, [])])
def test_an_old_rate_is_a_notice_that_stops_nothing(stage: Stage, days: int, codes: list[str]) -> None:
    with_rules(rate_stale_days=days)
    quote = stage.quote().json()
    assert "5 days old" in quote["kits"][0]["why"][0] and quote["kits"][1]["why"] == []
    assert [notice["code"] for notice in quote["notices"]] == codes and quote["stops"] == []
    assert all("5 days old" in notice["words"] for notice in quote["notices"])


def test_a_loose_part_says_its_quantity_and_price(stage: Stage) -> None:
    quote = stage.quote(stage.turbo).json()
    part = PartFactory(shop=stage.cast.shop, title="Boost gauge")
    body = {"kind": "part", "part": str(part.pk), "quantity": "2"}
    line = stage.client.post(f"quotes/{quote['id']}/lines", body).json()["extras"][0]["line"]
    first = stage.client.get(f"quotes/{quote['id']}")
    stage.client.patch(f"quotes/{quote['id']}/lines/{line}", {"unit_price": "88", "because": "agreed"}, seen=first)
    explanation = how(stage, quote, f"extra:{line}")
    assert steps(explanation) == [("Its own price", "88.00"), ("2 × 88.00", "176.00")]


@pytest.mark.both
def test_all_of_them_come_from_the_figures_that_are_there(stage: Stage) -> None:
    """Explaining asks the database nothing."""
    stage.quote()
    quote = figures(Revision.objects.get(), timezone.now())
    with CaptureQueriesContext(connection) as asked_queries:
        assert len(explanations(quote)) > 8
    assert len(asked_queries) == 0
