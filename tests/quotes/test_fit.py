"""A kit for another vehicle raises a notice before the quote is sent, and stops nothing: a person may know better."""

from typing import Any

import pytest

from shop.models import Vehicle
from tests.quotes.phone import Phone
from tests.quotes.stage import Stage

pytestmark = pytest.mark.once

MANUAL = [{"attribute": "transmission", "in": ["manual", "dual-clutch"]}]
AUTOMATIC = [{"attribute": "transmission", "in": ["automatic"]}]


def is_for(stage: Stage, fits: list[Any], **stated: str) -> None:
    stage.turbo.fits = fits
    stage.turbo.save(update_fields=["fits"])
    Vehicle.objects.filter(pk=stage.vehicle.pk).update(attributes=stated)


def fit_notices(quote: dict[str, Any]) -> list[tuple[str, str]]:
    return [(notice["code"], notice["words"]) for notice in quote["notices"] if "kit_" in notice["code"]]


def test_a_kit_for_another_vehicle_is_told_on_its_line_and_stops_nothing(stage: Stage) -> None:
    is_for(stage, AUTOMATIC, transmission="manual")
    quote = stage.quote().json()
    words = "Turbocharger kit does not fit this vehicle. It is for gearbox: automatic; this vehicle is manual."
    assert fit_notices(quote) == [("kit_not_for_vehicle", words)] and quote["stops"] == []
    assert quote["notices"][0]["about"] == quote["kits"][0]["line"]


def test_it_is_told_of_a_sent_version_too_and_not_to_the_customer(stage: Stage) -> None:
    is_for(stage, AUTOMATIC, transmission="manual")
    sent = stage.sent()
    assert [code for code, _ in fit_notices(sent["quote"])] == ["kit_not_for_vehicle"]
    page = Phone(sent["link"]["url"]).html
    assert "Turbocharger kit" in page and "not for this vehicle" not in page


def test_what_nobody_has_stated_is_told_more_mildly(stage: Stage) -> None:
    is_for(stage, MANUAL, drive="rear")
    words = (
        "Turbocharger kit is for gearbox: manual or dual-clutch. Not recorded for this vehicle. Ask before you send."
    )
    assert fit_notices(stage.quote().json()) == [("kit_fit_unknown", words)]


def test_a_kit_that_fits_or_is_for_any_vehicle_is_not_spoken_of(stage: Stage) -> None:
    is_for(stage, MANUAL, transmission="manual")
    assert fit_notices(stage.quote().json()) == []


def test_without_a_vehicle_there_is_nothing_to_tell(stage: Stage) -> None:
    is_for(stage, AUTOMATIC, transmission="manual")
    assert fit_notices(stage.quote(vehicle=None).json()) == []
