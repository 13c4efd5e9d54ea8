"""Parts that the customer brings: no price and no warranty, and a surcharge on the hours that fit them."""

from decimal import Decimal
from typing import Any

import pytest

from quotes.models import Line
from tests.quotes.changing import send
from tests.quotes.phone import Phone
from tests.quotes.stage import RULES, Stage

pytestmark = pytest.mark.once

SPRINGS = {"kind": "text", "title": "Coil springs", "tax_class": "part", "supplied": True}


def bring(stage: Stage, share: str = "0.15", **fields: Any) -> dict[str, Any]:
    """A draft of the turbocharger kit with springs that the customer brings, under rules with this share."""
    stage.enact(RULES | {"supplied_share": share})
    quote = stage.quote(stage.turbo).json()
    answer = stage.client.post(f"quotes/{quote['id']}/lines", SPRINGS | fields)
    assert answer.status_code == 201, answer.content
    draft: dict[str, Any] = answer.json()
    return draft


def surcharges(draft: dict[str, Any]) -> list[tuple[str, str]]:
    return [(fee["key"], fee["price"]) for fee in draft["fees"] if fee["key"].startswith("supplied")]


def test_the_hours_that_fit_it_get_the_surcharge_on_a_line_of_its_own(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    # 15 % of 3.0 h = 0.45 h, rounded to 0.5 h, at 165.00
    assert surcharges(draft) == [("supplied:mechanical", "82.50")]
    [fee] = [fee for fee in draft["fees"] if fee["key"].startswith("supplied")]
    assert fee["title"] == "Fitting customer-supplied parts" and fee["why"] == ["15 % of 3 h of fitting"]
    [part] = draft["extras"]
    assert (part["price"], part["supplied"], part["fitted_by"]) == ("0.00", True, "TURBO")
    alone = stage.quote(stage.turbo).json()
    assert Decimal(draft["totals"]["gross"]) - Decimal(alone["totals"]["gross"]) == Decimal("82.50")
    assert draft["labour"]["hours"] == alone["labour"]["hours"]  # the work takes no longer


def test_an_operation_counts_once_for_all_parts_that_it_fits(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    more = stage.client.post(f"quotes/{draft['id']}/lines", SPRINGS | {"title": "Dampers", "fitted_by": "TURBO"})
    assert surcharges(more.json()) == surcharges(draft)
    other = stage.client.post(f"quotes/{draft['id']}/lines", SPRINGS | {"title": "Arms", "fitted_by": "SETUP"})
    assert surcharges(other.json()) == [("supplied:mechanical", "115.50")]  # 15 % of 4.5 h is 0.675: 0.7 h


def test_without_a_share_or_without_its_work_nothing_is_added(stage: Stage) -> None:
    assert surcharges(bring(stage, fitted_by="")) == []
    assert surcharges(bring(stage, fitted_by="WIRING")) == []  # not on this quote
    assert surcharges(bring(stage, share="0", fitted_by="TURBO")) == []


def test_it_has_no_price_and_only_a_hand_written_line_can_be_one(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    path = f"quotes/{draft['id']}/lines"
    priced = stage.client.post(path, SPRINGS | {"unit_price": "10.00"})
    assert priced.status_code == 400 and priced.json()["errors"][0]["pointer"] == "/unit_price"
    unknown = stage.client.post(path, SPRINGS | {"fitted_by": "NOWHERE"})
    assert unknown.status_code == 400 and unknown.json()["errors"][0]["pointer"] == "/fitted_by"
    kit = stage.client.patch(f"{path}/{draft['kits'][0]['line']}", {"supplied": True}, seen=f'"{draft["version"]}"')
    assert kit.status_code in (400, 409)
    line = draft["extras"][0]["line"]
    sold = stage.client.patch(
        f"{path}/{line}", {"supplied": False, "unit_price": "90.00"}, seen=f'"{draft["version"]}"'
    ).json()
    assert surcharges(sold) == [] and sold["extras"][0]["price"] == "90.00"


def test_no_discount_is_given_on_the_surcharge(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    alone = stage.quote(stage.turbo).json()
    prices = []
    for quote in (draft, alone):
        discount = {"percent": "10", "because": "x"}
        answer = stage.client.put(f"quotes/{quote['id']}/discount", discount, seen=f'"{quote["version"]}"')
        prices.append(answer.json()["discount"]["price"])
    assert prices[0] == prices[1]


def test_the_customer_reads_that_there_is_no_warranty_on_page_and_paper(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    sent = send(stage, draft)
    page = Phone(sent["link"]["url"]).html
    assert "you bring this part: we fit it and give no warranty on it" in page
    assert "Fitting customer-supplied parts" in page
    assert Line.objects.filter(kind="fee", amount=Decimal("82.500")).exists()


def test_the_next_version_keeps_it_and_its_work(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    send(stage, draft)
    second = stage.client.post(f"quotes/{draft['id']}/revise").json()
    assert surcharges(second) == surcharges(draft) and second["extras"][0]["fitted_by"] == "TURBO"


def test_the_surcharge_is_explained(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    how = stage.client.get(f"quotes/{draft['id']}/how?key=supplied:mechanical")
    assert how.status_code == 200, how.content
    assert [(step["words"], step["figure"]) for step in how.json()["steps"]] == [
        ("Hours that fit these parts", "3.0 h"),
        ("0.5 h × 165.00", "82.50"),
    ]
