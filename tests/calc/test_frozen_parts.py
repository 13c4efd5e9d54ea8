"""The parts of a frozen text that have a type have it in the texts of every form."""

import json
from pathlib import Path

import pytest
from msgspec import ValidationError, convert

from quotes.calc.frozen_parts import FrozenCustomer, FrozenHouse, FrozenQuote, FrozenVehicle

TEXTS = sorted((Path(__file__).parents[1] / "quotes" / "frozen").glob("*.json"))
PARTS = {"shop": FrozenHouse, "quote": FrozenQuote, "customer": FrozenCustomer, "vehicle": FrozenVehicle}


@pytest.mark.parametrize("path", TEXTS, ids=lambda path: path.stem)
def test_earlier_texts_have_parts_of_their_types(path: Path) -> None:
    content = json.loads(path.read_text("utf-8"))
    assert {
        name for name, kind in PARTS.items() if convert(content[name], kind).keys() != content[name].keys()
    } == set()


def test_a_part_that_lacks_a_field_is_refused() -> None:
    with pytest.raises(ValidationError, match="valid_day"):
        convert({"number": "Q-1", "issue": 1, "sent_at": "", "valid_until": ""}, FrozenQuote)
