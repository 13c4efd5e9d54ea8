"""Search keys, and a kit that cannot fit whatever the missing attributes are."""

import pytest

from shop.calc.keys import prefix_range, search_key
from shop.calc.when import fit, holds

MANUAL = {"attribute": "transmission", "in": ["manual"]}
SMALL = {"attribute": "brakes", "in": ["300", "312"]}


def test_what_nobody_has_stated_does_not_hold() -> None:
    assert not holds([MANUAL, SMALL], {"brakes": "300"})


def test_a_kit_that_cannot_fit_is_not_asked_about() -> None:
    assert fit([MANUAL, SMALL], {"transmission": "automatic"}) == "no"


@pytest.mark.parametrize(
    ("typed", "key"),
    [
        ("BI-WSH 1418", "biwsh1418"),
        ("Ärmel", "ärmel"),
        ("A\u0308RMEL", "ärmel"),
        ("STRASSE 4 straße", "strasse4strasse"),
        ("Ｏ-ring ｘ２", "oringx2"),
        ("Clamp™", "clamptm"),
        ("ключ 10", "ключ10"),
    ],
)
def test_a_key_is_letters_and_digits_in_one_form(typed: str, key: str) -> None:
    assert search_key(typed) == key


@pytest.mark.parametrize(("stored", "expected"), [("biw", True), ("biw1", True), ("biwÿ", True), ("biv", False)])
def test_a_key_finds_everything_that_begins_with_it(stored: str, expected: bool) -> None:
    first, below = prefix_range("biw")
    assert (first <= stored < below) is expected
