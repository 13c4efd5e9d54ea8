"""Parts that the customer brings: no price and no warranty, and a surcharge on the hours that fit them."""

from decimal import Decimal
from typing import Any

import pytest

from kitting.models import KitCopy, PullLine
from quotes.models import Line, Revision
from quotes.queries import frozen
from shop.models import Job
from tests.factories import OfferFactory, PartFactory
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


def test_it_has_no_price_and_names_work_that_the_shop_has(stage: Stage) -> None:
    draft = bring(stage, fitted_by="TURBO")
    path = f"quotes/{draft['id']}/lines"
    priced = stage.client.post(path, SPRINGS | {"unit_price": "10.00"})
    assert priced.status_code == 400 and priced.json()["errors"][0]["pointer"] == "/unit_price"
    unknown = stage.client.post(path, SPRINGS | {"fitted_by": "NOWHERE"})
    assert unknown.status_code == 400 and unknown.json()["errors"][0]["pointer"] == "/fitted_by"
    kit = stage.client.patch(f"{path}/{draft['kits'][0]['line']}", {"fitted_by": "X"}, seen=f'"{draft["version"]}"')
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


def bring_part(stage: Stage) -> tuple[dict[str, Any], str]:
    """(a draft with a loose part of the list that the customer brings, the path of its line)"""
    stage.enact(RULES | {"supplied_share": "0.15"})
    part = PartFactory(shop=stage.shop, title="Boost gauge")
    OfferFactory(shop=stage.shop, part=part)
    quote = stage.quote(stage.turbo).json()
    path = f"quotes/{quote['id']}/lines"
    draft = stage.client.post(path, {"kind": "part", "part": str(part.pk)}).json()
    line = f"{path}/{draft['extras'][0]['line']}"
    brought = {"supplied": True, "fitted_by": "TURBO"}
    answer = stage.client.patch(line, brought, seen=f'"{draft["version"]}"')
    assert answer.status_code == 200, answer.content
    return answer.json(), line


def test_a_part_of_the_list_can_be_the_customers(stage: Stage) -> None:
    draft, line = bring_part(stage)
    [part] = draft["extras"]
    assert (part["price"], part["supplied"], part["fitted_by"]) == ("0.00", True, "TURBO")
    assert (part["condition"], part["override"]) == (None, None) and surcharges(draft) == [
        ("supplied:mechanical", "82.50")
    ]
    assert not any("gauge" in item["title"] for item in margin(stage, draft)["bought"])
    priced = stage.client.patch(line, {"unit_price": "9.00", "because": "x"}, seen=f'"{draft["version"]}"')
    assert (priced.status_code, priced.json()["errors"][0]["pointer"]) == (400, "/unit_price")
    again = stage.client.patch(line, {"unit_price": None}, seen=f'"{draft["version"]}"').json()
    assert again["extras"][0]["price"] == "0.00"
    sold = stage.client.patch(line, {"supplied": False}, seen=f'"{again["version"]}"').json()
    assert sold["extras"][0]["price"] != "0.00" and surcharges(sold) == []


def margin(stage: Stage, draft: dict[str, Any]) -> Any:
    return stage.client.get(f"quotes/{draft['id']}/margin").json()


def test_a_part_of_the_list_that_the_customer_brings_is_neither_pulled_nor_waited_for(stage: Stage) -> None:
    draft, _ = bring_part(stage)
    sent = send(stage, draft)
    assert "Boost gauge" not in str(sent["quote"].get("out", {}))
    phone = Phone(sent["link"]["url"])
    assert "you bring this part: we fit it and give no warranty on it" in phone.html
    second = stage.client.post(f"quotes/{draft['id']}/revise").json()
    assert (second["extras"][0]["supplied"], second["extras"][0]["price"]) == (True, "0.00")
    assert Line.objects.filter(kind="part").exclude(override_reason="").count() == 0
    assert phone.answer().status_code == 303
    assert not PullLine.objects.filter(title="Boost gauge").exists()
    awaited = [coming["title"] for coming in frozen.read(Revision.objects.get(number=1))["plan"]["coming"]]
    assert "Boost gauge" not in awaited


def bring_kit(stage: Stage, *kits: Any, rules: dict[str, Any] | None = None) -> dict[str, Any]:
    """A draft in which the customer brings the turbocharger kit."""
    stage.enact(RULES | {"supplied_share": "0.15"} | (rules or {}))
    draft = stage.quote(stage.turbo, *kits).json()
    key = f"quotes/{draft['id']}/overrides/{draft['kits'][0]['key']}"
    own = stage.client.put(key, {"value": "5.00", "because": "x"}, seen=f'"{draft["version"]}"')
    assert own.status_code == 200, own.content
    line = f"quotes/{draft['id']}/lines/{draft['kits'][0]['line']}"
    answer = stage.client.patch(line, {"supplied": True}, seen=f'"{own.json()["version"]}"')
    assert answer.status_code == 200, answer.content
    brought: dict[str, Any] = answer.json()
    return brought


def test_a_kit_of_the_customers_has_no_price_and_its_work_the_surcharge(stage: Stage) -> None:
    draft = bring_kit(stage, stage.towing)
    turbo, towing = draft["kits"]
    assert (turbo["price"], turbo["supplied"], turbo["override"]) == ("0.00", True, None)
    assert towing["price"] != "0.00" and towing["supplied"] is False
    hours = {work["key"]: Decimal(work["hours"]) for work in draft["labour"]["operations"] if "A" in work["kits"]}
    share = (sum(hours.values(), Decimal(0)) * Decimal("0.15")).quantize(Decimal("0.1"), "ROUND_HALF_UP")
    assert surcharges(draft) == [("supplied:mechanical", f"{share * 165:.2f}")]
    costs = margin(stage, draft)
    assert not any(turbo["title"] in item["title"] for item in costs["bought"])
    own = {"value": "9.00", "because": "x"}
    path = f"quotes/{draft['id']}"
    priced = stage.client.put(f"{path}/overrides/{turbo['key']}", own, seen=f'"{draft["version"]}"')
    assert priced.status_code == 400
    how = stage.client.get(f"{path}/how?key={turbo['key']}").json()
    assert how["rule"] == ["The customer brings this kit. Only the work is charged."]
    sold = stage.client.patch(f"{path}/lines/{turbo['line']}", {"supplied": False}, seen=f'"{draft["version"]}"').json()
    assert surcharges(sold) == [] and Decimal(sold["kits"][0]["price"]) > 5


def test_a_kit_of_the_customers_is_counted_and_never_ordered(stage: Stage) -> None:
    draft = bring_kit(stage)
    copy = stage.client.post(f"quotes/{draft['id']}/copy", {"vehicle": str(stage.vehicle.pk)}).json()
    assert copy["kits"][0]["supplied"] and surcharges(copy) == surcharges(draft)
    sent = send(stage, draft)
    phone = Phone(sent["link"]["url"])
    assert "you bring this kit: we fit it and give no warranty on it" in phone.html
    assert f"{stage.turbo.code}; 3 lines of its parts list apply to your vehicle" in phone.html
    assert "not from the vehicle manufacturer" not in phone.html
    second = stage.client.post(f"quotes/{draft['id']}/revise").json()
    assert second["kits"][0]["supplied"] and surcharges(second) == surcharges(draft)
    awaited = [
        coming["title"] for coming in frozen.read(Revision.objects.get(number=1, state="sent"))["plan"]["coming"]
    ]
    assert stage.turbo.title not in awaited
    assert phone.answer().status_code == 303
    job = Job.objects.get()
    lines = PullLine.objects.filter(kit=stage.turbo.code)
    assert lines.exists() and all(line.supplied for line in lines.select_related("copy"))
    proposed = stage.client.get(f"jobs/{job.pk}/releases").json()["proposed"]
    assert stage.turbo.part.number not in [line["number"] for order in proposed["suppliers"] for line in order["lines"]]
    ready = stage.client.get(f"jobs/{job.pk}/readiness").json()
    words = [group["due_words"] for group in ready["missing"] if group["kind"] == "kit"]
    assert words and all(word.startswith("the customer brings it") for word in words)
    called = stage.client.post(f"jobs/{job.pk}/call-off", {"because": "sold the car"})
    assert called.status_code in (200, 201), called.content
    assert KitCopy.objects.get(kit=stage.turbo).purpose == "job"  # theirs, and not our stock
