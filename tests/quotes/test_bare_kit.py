"""A kit of which only the price and the hours are known, and what its cost, lead days and models add."""

from typing import Any

import pytest

from kitting.models import KitRevision, PullList
from tests.factories import VehicleFactory
from tests.quotes import dated
from tests.quotes.dated import ready
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

clock, stage = dated.clock, dated.stage

TENT = {"code": "RT-1", "title": "Roof tent mounting kit", "price": "900.00", "hours": "5.2"}
KNOWN = {"cost": "600.00", "lead_days": 5, "models": ["T35", "Hauler"]}


def kit(stage: Stage, **more: Any) -> dict[str, Any]:
    answer = stage.client.post("kits", TENT | more)
    assert answer.status_code == 201, answer.content
    body: dict[str, Any] = answer.json()
    return body


def quote(stage: Stage, **more: Any) -> dict[str, Any]:
    answer = stage.client.post("quotes", {"kits": [kit(stage, **more)["id"]], "vehicle": str(stage.vehicle.pk)})
    body: dict[str, Any] = answer.json()
    return body


def margin(stage: Stage, of: dict[str, Any]) -> dict[str, Any]:
    body: dict[str, Any] = stage.client.get(f"quotes/{of['id']}/margin").json()
    return body


def test_without_a_cost_and_days_there_is_neither_margin_nor_date(stage: Stage) -> None:
    draft = quote(stage)
    figures = margin(stage, draft)
    assert (figures["rate"], figures["words"][0]) == (None, "Margin not known: Roof tent mounting kit has no cost.")
    assert draft["promise"] is None
    assert draft["no_promise"].startswith("No date yet. Roof tent mounting kit has no delivery date.")


def test_a_cost_is_a_figure_or_null(stage: Stage) -> None:
    refused = stage.client.post("kits", TENT | {"cost": ""})
    assert refused.status_code == 400
    assert [error["pointer"] for error in refused.json()["errors"]] == ["/cost"]
    assert stage.client.post("kits", TENT | {"cost": None}).status_code == 201


def test_its_cost_gives_the_margin_and_its_days_the_date(stage: Stage) -> None:
    draft = quote(stage, **KNOWN)
    figures = margin(stage, draft)
    # 900.00 with 20 % tax inside are 750.00; the rest is labour and what comes with it
    step = {"words": "A, Roof tent mounting kit", "figure": "\u2212 600.00"}
    assert step in figures["how"]["steps"] and figures["words"] == [] and figures["rate"] is not None
    assert ready(draft) == "Tue 8 Dec, in the afternoon"  # here on Sunday the 6th, so as Monday's closing


def test_an_offer_counts_before_what_the_kit_says_itself(stage: Stage) -> None:
    KitRevision.objects.filter(kit=stage.turbo).update(cost="1", lead_days=90)
    draft = stage.quote(stage.turbo).json()
    assert {"words": "A, Turbocharger kit", "figure": "\u2212 900.00"} in margin(stage, draft)["how"]["steps"]
    assert ready(draft) == "Tue 8 Dec, in the afternoon"


def test_the_job_expects_it_after_its_own_days(stage: Stage) -> None:
    sent = stage.sent(type(stage.turbo).objects.get(pk=kit(stage, **KNOWN)["id"]))
    Phone(sent["link"]["url"]).answer()
    readiness = stage.client.get(f"jobs/{PullList.objects.get().job_id}/readiness").json()
    assert ready(readiness) == "Tue 8 Dec, in the afternoon"


@pytest.mark.parametrize(
    ("attributes", "fits", "why"),
    [
        ({"model": "Hauler"}, "yes", ""),
        ({"model": "Vell 2.4"}, "no", "Does not fit this vehicle (fits model: T35 or Hauler only)."),
        ({}, "ask", "Not recorded: model."),
    ],
)
def test_it_fits_the_models_that_are_named(stage: Stage, attributes: dict[str, str], fits: str, why: str) -> None:
    vehicle = VehicleFactory(shop=stage.cast.shop, attributes=attributes)
    tent = kit(stage, **KNOWN)
    assert tent["models"] == ["T35", "Hauler"]
    (row,) = stage.client.get("kits", {"vehicle": str(vehicle.pk), "q": "RT-1"}).json()["items"]
    assert (row["fits"], row["why"]) == (fits, why)


def test_a_kit_of_which_no_vehicle_is_recorded_never_reads_as_fitting(stage: Stage) -> None:
    kit(stage)
    (row,) = stage.client.get("kits", {"vehicle": str(stage.vehicle.pk), "q": "RT-1"}).json()["items"]
    assert (row["fits"], row["why"]) == ("open", "Not recorded which vehicles it fits.")


@pytest.mark.parametrize(
    ("change", "pointer"),
    [({"cost": "-1"}, "/cost"), ({"lead_days": 3653}, "/lead_days"), ({"models": ["x" * 61]}, "/models/0")],
)
def test_what_it_says_more_is_checked(stage: Stage, change: dict[str, Any], pointer: str) -> None:
    refused = stage.client.post("kits", TENT | change)
    assert refused.status_code == 400 and refused.json()["errors"][0]["pointer"] == pointer
