"""A VIN that looks wrong is kept, with a warning that shows its working."""

from typing import Any

import pytest

from shop.models import Shop, Vehicle
from tests.cast import Cast

pytestmark = pytest.mark.once

WRONG_DIGIT = "21111111111111111"


def checked(cast: Cast, vin: str) -> dict[str, Any]:
    answer = cast.signed_in("advisor").post("vehicles", {"title": "Vell 2.4 coupe", "vin": vin})
    assert answer.status_code == 201 and answer.json()["vin"] == vin
    return answer.json()["vin_check"]


def test_a_wrong_check_digit_shows_its_sum_and_what_is_left(cast: Cast) -> None:
    check = checked(cast, WRONG_DIGIT)
    assert check["status"] == "check_digit_wrong"
    figures = {step["words"]: step["figure"] for step in check["how"]["steps"]}
    products = "2 × 8 + 1 × 7 + 1 × 6 + 1 × 5 + 1 × 4 + 1 × 3 + 1 × 2 + 1 × 10"
    products += " + 1 × 9 + 1 × 8 + 1 × 7 + 1 × 6 + 1 × 5 + 1 × 4 + 1 × 3 + 1 × 2"
    assert figures[f"Each value times its position weight, added up: {products}"] == "97"
    assert (figures["97 divided by 11 leaves"], figures["So position 9 should be"], figures["Position 9 is"]) == (
        "9",
        "9",
        "1",
    )
    assert "only a warning" in check["how"]["rule"][-1]


def test_a_malformed_one_shows_what_it_cannot_hold(cast: Cast) -> None:
    check = checked(cast, "OSKR23456789")
    figures = {step["words"]: step["figure"] for step in check["how"]["steps"]}
    assert figures == {"Number of characters": "12", "Never in a VIN": "O"}


def test_a_right_one_has_nothing_to_explain(cast: Cast) -> None:
    assert checked(cast, "11111111111111111")["how"] is None


def test_it_is_checked_as_it_is_typed_and_nothing_is_kept(cast: Cast) -> None:
    client = cast.signed_in("advisor")
    check = client.get("vehicles/vin", {"vin": "otb1mzw0 0A7YW24HU"}).json()
    assert (check["status"], check["suggestion"]) == ("malformed", "0TB1MZW00A7YW24HU")
    assert check["words"] == "A VIN never contains I, O or Q. Did you mean 0TB1MZW00A7YW24HU?" and check["how"]
    assert client.get("vehicles/vin", {"vin": "0TB1MZW00A7YW24HU"}).json()["suggestion"] is None
    assert client.get("vehicles", {"q": "24hu"}).json()["items"] == [] and not Vehicle.objects.exists()


def test_one_that_is_far_too_long_names_the_field(cast: Cast) -> None:
    answer = cast.signed_in("advisor").get("vehicles/vin", {"vin": "1" * 41})
    assert answer.status_code == 400 and answer.json()["errors"][0]["pointer"] == "/vin"


@pytest.mark.parametrize("market", ["", "north_america"])
def test_the_check_digit_is_judged_where_it_may_be_binding(cast: Cast, market: str) -> None:
    Shop.objects.filter(pk=cast.shop.pk).update(market=market)
    check = cast.signed_in("advisor").get("vehicles/vin", {"vin": WRONG_DIGIT}).json()
    assert check["status"] == "check_digit_wrong"


def test_a_shop_outside_north_america_is_not_warned_of_a_check_digit(cast: Cast) -> None:
    Shop.objects.filter(pk=cast.shop.pk).update(market="elsewhere")
    client = cast.signed_in("advisor")
    vehicle = client.post("vehicles", {"title": "Vell 2.4", "vin": WRONG_DIGIT}).json()
    read = client.get(f"vehicles/{vehicle['id']}").json()
    for check in (client.get("vehicles/vin", {"vin": WRONG_DIGIT}).json(), vehicle["vin_check"], read["vin_check"]):
        assert (check["status"], check["how"]) == ("not_checkable", None)
