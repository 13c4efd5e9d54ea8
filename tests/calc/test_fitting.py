"""All outcomes of comparing a kit's conditions with the vehicle's recorded attributes."""

from typing import Any

from quotes.calc.fitting import fit_notices
from quotes.calc.pricing import price_quote
from tests.calc.pricing_drafts import TURBO, draft, kit

BOTH = (("transmission", ("automatic",)), ("drive", ("rear", "all")))


def notices_of(attributes: dict[str, str] | None, *fits: Any) -> list[tuple[str, str, str]]:
    kits = [kit(letter, TURBO, fits=fitting) for letter, fitting in zip("ABC", fits, strict=False)]
    codes = [(fitting.code, fitting.named) for fitting in fit_notices(draft(*kits, attributes=attributes))]
    return [(code, str(facts["title"]), str(facts["attribute"])) for code, facts in codes]


def test_each_thing_that_speaks_against_it_is_told() -> None:
    assert notices_of({"transmission": "manual", "drive": "front"}, BOTH) == [
        ("kit_not_for_vehicle", "Kit A", "transmission"),
        ("kit_not_for_vehicle", "Kit A", "drive"),
    ]


def test_what_fits_is_not_spoken_of_beside_what_does_not() -> None:
    assert notices_of({"transmission": "manual", "drive": "all"}, BOTH) == [
        ("kit_not_for_vehicle", "Kit A", "transmission")
    ]
    assert notices_of({"transmission": "automatic", "drive": "all"}, BOTH, ()) == []


def test_what_is_not_stated_matters_only_while_nothing_speaks_against_it() -> None:
    assert notices_of({"transmission": "automatic", "drive": ""}, BOTH) == [("kit_fit_unknown", "Kit A", "drive")]
    assert notices_of({"transmission": "manual"}, BOTH) == [("kit_not_for_vehicle", "Kit A", "transmission")]


def test_what_speaks_against_a_kit_stands_first() -> None:
    notices = notices_of({"transmission": "manual"}, (("drive", ("all",)),), (), BOTH)
    assert notices == [("kit_not_for_vehicle", "Kit C", "transmission"), ("kit_fit_unknown", "Kit A", "drive")]


def test_no_vehicle_is_not_a_vehicle_of_which_nothing_is_known() -> None:
    assert notices_of(None, BOTH) == []
    assert [code for code, *_ in notices_of({}, BOTH)] == ["kit_fit_unknown", "kit_fit_unknown"]


def test_it_stands_before_every_other_notice() -> None:
    unpriced = kit("A", TURBO, own_price=None, fits=BOTH)
    quote = price_quote(draft(unpriced, attributes={"transmission": "manual"}))
    assert [notice.code for notice in quote.notices] == ["kit_not_for_vehicle", "no_price"]
