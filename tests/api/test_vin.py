"""A VIN that looks wrong is kept, with a warning that shows its working."""

from typing import Any

from tests.cast import Cast


def checked(cast: Cast, vin: str) -> dict[str, Any]:
    answer = cast.signed_in("advisor").post("vehicles", {"title": "Vell 2.4 coupe", "vin": vin})
    assert answer.status_code == 201 and answer.json()["vin"] == vin
    return answer.json()["vin_check"]


def test_a_wrong_check_digit_shows_its_sum_and_what_is_left(cast: Cast) -> None:
    found = checked(cast, "21111111111111111")
    assert found["status"] == "check_digit_wrong"
    told = {step["words"]: step["figure"] for step in found["how"]["steps"]}
    products = "2 × 8 + 1 × 7 + 1 × 6 + 1 × 5 + 1 × 4 + 1 × 3 + 1 × 2 + 1 × 10"
    products += " + 1 × 9 + 1 × 8 + 1 × 7 + 1 × 6 + 1 × 5 + 1 × 4 + 1 × 3 + 1 × 2"
    assert told[f"Value × weight of its place, added: {products}"] == "97"
    assert (told["97 divided by 11 leaves"], told["So place 9 should be"], told["Place 9 is"]) == ("9", "9", "1")
    assert "warning only" in found["how"]["rule"][-1]


def test_a_malformed_one_shows_what_it_cannot_hold(cast: Cast) -> None:
    found = checked(cast, "OSKR23456789")
    told = {step["words"]: step["figure"] for step in found["how"]["steps"]}
    assert told == {"Characters it has": "12", "Cannot be in a VIN": "O"}


def test_a_right_one_has_nothing_to_explain(cast: Cast) -> None:
    assert checked(cast, "11111111111111111")["how"] is None
