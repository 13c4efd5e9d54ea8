"""The limits of the price rules' settings, and figures that are 0 or missing."""

import copy
from decimal import Decimal as D
from typing import Any

import pytest

from shop.calc.errors import CalculationError
from shop.calc.rules import Rules
from tests.quotes.stage import RULES


def rules(**change: Any) -> Rules:
    return Rules.from_json({**copy.deepcopy(RULES), **change})


def test_a_cap_of_nothing_is_a_cap_and_none_is_none() -> None:
    supplies = RULES["supplies"]
    capped = rules(supplies={**supplies, "cap": "0"}).supplies
    free = rules(supplies={**supplies, "cap": None}).supplies
    assert capped is not None and capped.cap == D(0)
    assert free is not None and free.cap is None


def test_sound_condition_is_there_beside_conditions_of_the_house() -> None:
    assert rules(condition_factors={"heavy": "1.40"}).condition_factors == {"none": D(1), "heavy": D("1.40")}


def test_somebody_works_and_at_some_pace() -> None:
    assert [rules(technicians=n).technicians for n in (0, 9)] == [1, 9]
    with pytest.raises(CalculationError, match="bad_rules: efficiency: 0"):
        rules(efficiency="0")


@pytest.mark.parametrize(
    ("change", "culprit"),
    [
        ({"technicians": 10}, "technicians: 10"),
        ({"minimum": {"hours": "-1"}}, "minimum.hours: -1"),
        ({"validity_days": True}, "validity_days: True"),
        ({"rounding": "up"}, "rounding: up"),
        ({"markup": {**RULES["markup"], "step": "0.25"}}, "markup.step: 0.25"),
        ({"markup": {**RULES["markup"], "step": "0"}}, "markup.step: 0"),
        ({"deposit_share": "1.01"}, "deposit_share: 1.01"),
        ({"deposit_share": "0.5", "deposit": {"base": "labour"}}, "deposit.base: labour"),
        ({"deposit_share": "0.5", "deposit": {"releases": "yes"}}, "deposit.releases: 'yes'"),
        ({"recoverable_tax_rate": "NaN"}, "recoverable_tax_rate: NaN"),
        ({"labour_costs": {"mechanical": 60.0}}, "labour_costs.mechanical: 60.0"),
        ({"fees": [{**RULES["fees"][0], "per": "litre drained"}]}, "fees[0].fluid: missing"),
        ({"fees": [{**RULES["fees"][0], "per": "litre drained", "fluid": ""}]}, "fees[0].fluid: ''"),
        ({"fees": [{**RULES["fees"][0], "fluid": "coolant"}]}, "fees[0].fluid: 'coolant'"),
    ],
)
def test_a_figure_that_cannot_be_is_named(change: dict[str, Any], culprit: str) -> None:
    with pytest.raises(CalculationError) as refused:
        rules(**change)
    assert str(refused.value) == f"bad_rules: {culprit}"


def test_a_skill_may_have_a_tax_class_of_its_own() -> None:
    rule_set = rules(labour_classes={"electrical": "low"})
    assert (rule_set.labour_class("electrical"), rule_set.labour_class("mechanical")) == ("low", "labour")
    assert "low" in rule_set.tax_classes()


def test_what_only_the_supplies_name_is_a_tax_class() -> None:
    rule_set = rules(taxes=[], fees=[], supplies={**RULES["supplies"], "tax_class": "sundries"})
    assert rule_set.tax_classes() == ("labour", "part", "sundries")
