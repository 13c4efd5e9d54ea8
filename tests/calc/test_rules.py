import copy
from decimal import Decimal
from typing import Any

import pytest

from shop.calc.errors import CalculationError
from shop.calc.rules import Rules
from tests.quotes.stage import RULES


def test_they_are_read_as_exact_figures() -> None:
    rules = Rules.from_json(RULES)
    assert rules.labour_rates["mechanical"] == Decimal("165.00")
    assert rules.condition_factors == {"none": 1, "light": Decimal("1.10"), "heavy": Decimal("1.40")}
    assert rules.supplies is not None and rules.supplies.cap == Decimal("48.00")
    assert rules.taxes[0].tax.rate == Decimal("0.20") and rules.validity_days == 14
    assert rules.tax_classes() == ("fee", "labour", "part", "supplies")


@pytest.mark.parametrize(
    ("path", "bad", "culprit"),
    [
        (("labour_rates", "mechanical"), 165.0, "labour_rates.mechanical"),
        (("labour_rates", "mechanical"), "-1", "labour_rates.mechanical"),
        (("markup", "mode"), "secret", "markup.mode"),
        (("taxes", 0, "rate"), "a fifth", "taxes[0].rate"),
        (("prices_include_tax",), "yes", "prices_include_tax"),
        (("validity_days",), "14", "validity_days"),
        (("words", "cautions"), ["fine", 3], "words.cautions[1]"),
        (("words", "cautions"), [{"text": "fine", "applies_to": [3]}], "words.cautions[0].applies_to[0]"),
    ],
)
def test_a_wrong_field_is_named(path: tuple[Any, ...], bad: Any, culprit: str) -> None:
    content = copy.deepcopy(RULES)
    place: Any = content
    for step in path[:-1]:
        place = place[step]
    place[path[-1]] = bad
    with pytest.raises(CalculationError) as refused:
        Rules.from_json(content)
    assert refused.value.code == "bad_rules" and refused.value.culprit.startswith(culprit)


@pytest.mark.parametrize("field", ["labour_rates", "markup"])
def test_what_a_price_cannot_do_without_must_be_there(field: str) -> None:
    with pytest.raises(CalculationError, match=field):
        Rules.from_json({name: value for name, value in RULES.items() if name != field})


def test_cautions_are_read_as_sets_had_them_before_and_with_what_they_apply_to() -> None:
    content = copy.deepcopy(RULES)
    content["words"]["cautions"] = ["Always.", {"text": "Towing.", "applies_to": ["QT-11"]}]
    always, towing = Rules.from_json(content).cautions
    assert (always.text, towing.text) == ("Always.", "Towing.")
    assert always.concerns([]) and towing.concerns(["GEN-01", "qt-11"]) and not towing.concerns(["GEN-01"])
