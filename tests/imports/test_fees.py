"""A fee per litre drained is read from the workbook with its fluid; one without is named at its cell."""

from typing import Any

import pytest

from shop.calc.rules import Rules
from shop.imports.findings import MUST_FIX
from tests.imports.test_kinds import rules

HEADS = ["Code", "Title", "Amount", "Tax class", "Per", "Fluid"]


def fee(per: str, fluid: str) -> list[list[Any]]:
    return [HEADS, ["old", "Old coolant", "0.755", "fee", per, fluid]]


def test_a_fee_per_litre_drained_is_read_with_its_fluid() -> None:
    planned = rules(Fees=fee("Litre  drained", "coolant"))
    (found,) = Rules.from_json(planned.plan.rules).fees
    assert (found.per, found.fluid, str(found.amount)) == ("litre drained", "coolant", "0.755")
    assert not [one for one in planned.findings if one.weight == MUST_FIX]


@pytest.mark.parametrize(
    ("per", "fluid", "code"),
    [("litre drained", "", "fee_without_fluid"), ("Engine oil", "coolant", "fee_with_fluid")],
)
def test_a_fee_without_its_fluid_is_named_at_its_cell(per: str, fluid: str, code: str) -> None:
    (found,) = (one for one in rules(Fees=fee(per, fluid)).findings if one.weight == MUST_FIX)
    assert (found.code, found.row, found.field, dict(found.facts)) == (code, 2, "fluid", {"what": "Old coolant"})
