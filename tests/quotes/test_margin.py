"""The margin for roles that may see costs: revenue before tax minus every cost."""

from decimal import Decimal
from typing import Any

import pytest

from kitting.models import Need
from quotes.presenters.margin import kept_margin
from shop.models import History, RuleSet
from tests.quotes.changing import accept, begin, job_of, off
from tests.quotes.open_gearbox import open_gearbox
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once


def how(stage: Stage, quote: dict[str, Any]) -> dict[str, Any]:
    answer = stage.client.get(f"quotes/{quote['id']}/margin")
    assert answer.status_code == 200, answer.content
    explanation: dict[str, Any] = answer.json()["how"]
    return explanation


def add(stage: Stage, quote: dict[str, Any], title: str) -> dict[str, Any]:
    body = {"kind": "text", "title": title, "unit_price": "96", "tax_class": "part"}
    added: dict[str, Any] = stage.client.post(f"quotes/{quote['id']}/lines", body).json()
    return added


def steps(explanation: dict[str, Any]) -> list[tuple[str, str]]:
    return [(step["words"], step["figure"]) for step in explanation["steps"]]


WORKED = [
    ("Total with tax", "3,207.38"),
    ("Tax inside it", "− 534.56"),
    ("Total before tax", "2,672.82"),
    ("A, Turbocharger kit", "− 900.00"),
    ("B, Towing kit", "− 400.00"),
    ("Labour, mechanical: 6.7 h at a cost of 60.00 an hour", "− 402.00"),
    ("Labour, electrical: 2.0 h at a cost of 60.00 an hour", "− 120.00"),
    ("1 × Part OIL-5 + 2 × Part OIL-1", "− 46.00"),
    ("Profit before tax", "804.82"),
    ("804.82 of 2,672.82", "30.11 %"),
]


def test_the_margin_is_the_total_before_tax_less_every_cost(stage: Stage) -> None:
    explanation = how(stage, stage.quote().json())
    assert steps(explanation) == WORKED
    assert (explanation["title"], explanation["result"]) == ("Margin", "30.11 %")
    assert "fees" in explanation["rule"][1] and len(explanation["rule"]) == 2


def test_a_sent_version_is_worked_the_same(stage: Stage) -> None:
    sent = stage.sent()["quote"]
    assert steps(how(stage, sent)) == WORKED


def test_prices_without_tax_begin_before_tax(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"prices_include_tax": False})
    quote = stage.quote().json()
    assert steps(how(stage, quote))[0] == ("Total before tax", f"{Decimal(quote['totals']['net']):,}")


@pytest.mark.parametrize(
    ("charge", "words"),
    [("used", "the share used"), ("supplies", "the share used, covered by shop supplies")],
)
def test_packs_that_are_not_sold_whole_cost_what_is_used_of_them(stage: Stage, charge: str, words: str) -> None:
    """6.1 L of 7 L, which cost 46.00."""
    Need.objects.update(charge=charge)
    packs = "1 × Part OIL-5 + 2 × Part OIL-1"
    assert (f"{packs}, {words}", "− 40.09") in steps(how(stage, stage.quote().json()))


def test_what_has_no_known_cost_says_so(stage: Stage) -> None:
    quote = stage.quote().json()
    before = stage.client.get(f"quotes/{quote['id']}/margin").json()
    add(stage, quote, "Wheel alignment")
    explanation = how(stage, quote)
    assert ("Wheel alignment", "not known") in steps(explanation)
    assert ("Items without a cost, before tax", "− 80.00") in steps(explanation)
    assert explanation["rule"][-1].startswith("The margin of the whole is not known while a cost is not known.")
    assert steps(explanation)[-2:] == WORKED[-2:] and explanation["result"] == "not known"
    after = stage.client.get(f"quotes/{quote['id']}/margin").json()
    assert after["words"] == ["Margin not known: Wheel alignment has no cost.", "Without it 30.1 %."]
    assert (after["rate"], after["profit"], after["below"]) == (None, before["profit"], before["below"])


def test_several_without_a_cost_are_counted_and_a_sent_version_says_the_same(stage: Stage) -> None:
    quote = stage.quote().json()
    for title in ("Wheel alignment", "Polish"):
        quote = add(stage, quote, title)
    phrases = ["Margin not known: 2 items have no cost: Wheel alignment and Polish.", "Without them 30.1 %."]
    assert stage.client.get(f"quotes/{quote['id']}/margin").json()["words"] == phrases
    stage.client.post(f"quotes/{quote['id']}/send", {"version": quote["version"], "recipient": "x"})
    assert stage.client.get(f"quotes/{quote['id']}/margin").json()["words"] == phrases


def test_the_floor_is_compared_with_the_rest_where_a_cost_is_not_known(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"margin_floor": "0.31"})
    quote = add(stage, stage.quote().json(), "Wheel alignment")
    assert stage.client.get(f"quotes/{quote['id']}/margin").json()["below"] is True


def test_none_of_several_prices_has_a_margin_while_a_cost_is_not_known(stage: Stage) -> None:
    quote = open_gearbox(stage).quote().json()
    prices = stage.client.get(f"quotes/{quote['id']}/margin").json()["prices"]
    add(stage, quote, "Wheel alignment")
    unknown = stage.client.get(f"quotes/{quote['id']}/margin").json()["prices"]
    assert all("%" in words for words in prices) and len(prices) == len(unknown) == 2
    assert unknown == ["manual: margin not known", "automatic: margin not known"]


def test_where_no_cost_is_known_no_margin_is_named(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"supplies": None, "fees": []})
    quote = add(stage, stage.client.post("quotes", {"kits": []}).json(), "Wheel alignment")
    margin = stage.client.get(f"quotes/{quote['id']}/margin").json()
    assert (margin["rate"], margin["words"]) == (None, ["Margin not known: Wheel alignment has no cost."])


def test_what_a_change_takes_off_has_no_cost_of_its_own(stage: Stage) -> None:
    words = "Margin not known: 2 items have no cost: Towing kit and Towing electrics."
    change = off(stage, begin(stage, job_of(stage)), stage.towing.title)
    margin = stage.client.get(f"quotes/{change['id']}/margin").json()
    assert (margin["rate"], margin["words"]) == (None, [words])
    accept(stage, change)
    stored = stage.client.get(f"quotes/{change['id']}/margin").json()
    assert (stored["rate"], stored["profit"], stored["words"]) == (None, "0.00", margin["words"])


def test_the_margin_is_explained_to_nobody_who_sees_no_costs(stage: Stage) -> None:
    quote = stage.quote().json()
    for role, status in (("advisor", 200), ("manager", 200), ("parts", 403), ("technician", 403)):
        assert stage.cast.signed_in(role).get(f"quotes/{quote['id']}/margin").status_code == status, role
    keys = stage.client.get(f"quotes/{quote['id']}/how?key=margin")
    assert keys.status_code == 400


def test_below_the_floor_is_sent_only_when_it_is_confirmed_and_the_history_says_so(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"margin_floor": "0.31"})
    quote = stage.quote().json()
    path, body = f"quotes/{quote['id']}/send", {"version": quote["version"], "recipient": "Maren Oldacre"}
    refused = stage.client.post(path, body)
    assert (refused.status_code, refused.json()["type"]) == (409, "/problems/below-the-floor")
    assert stage.client.get(f"quotes/{quote['id']}").json()["state"] == "draft"
    sent = stage.client.post(path, body | {"below_floor": True})
    assert sent.status_code == 201, sent.content
    assert History.objects.get(verb="sent").changes["below_floor"] == ["", "confirmed"]


def test_at_the_floor_nothing_is_asked(stage: Stage) -> None:
    RuleSet.objects.update(rules=RULES | {"margin_floor": "0.3011"})
    stage.sent()
    assert "below_floor" not in History.objects.get(verb="sent").changes


def test_a_margin_that_was_kept_without_percentages_has_them() -> None:
    explained = {"title": "Margin", "rule": [], "steps": [], "result": "28.44 %"}
    stored = {
        "revenue": "100.00",
        "cost": "71.56",
        "profit": "28.44",
        "rate": "0.2844",
        "floor": "0.25",
        "below": False,
    }
    answer = kept_margin({**stored, "words": [], "bought": [], "bought_sum": None, "how": explained}, Decimal("0.25"))
    assert (answer.percent, answer.floor_percent, answer.prices) == ("28.4", "25", [])
