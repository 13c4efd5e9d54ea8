"""Fees and ways of charging are read with what they name; what is missing or unknown is reported at its cell."""

from typing import Any

import pytest

from kitting.models import Need
from shop.access import Actor
from shop.calc.rules import Rules
from shop.imports.rules import KIND as RULES
from shop.tables.findings import MUST_FIX
from tests.cast import Cast
from tests.factories import ConsumableFactory, KitRevisionFactory, VehicleFactory
from tests.imports.test_kinds import rules

pytestmark = pytest.mark.once

HEADS = ["Code", "Title", "Amount", "Tax class", "Per", "Fluid"]


def fee(per: str, fluid: str) -> list[list[Any]]:
    return [HEADS, ["old", "Old coolant", "0.755", "fee", per, fluid]]


def test_a_fee_per_litre_drained_is_read_with_its_fluid() -> None:
    planned = rules(Fees=fee("Litre  drained", "Coolant"))
    (single_fee,) = Rules.from_json(planned.plan.rules).fees
    assert (single_fee.per, single_fee.fluid, str(single_fee.amount)) == ("litre drained", "coolant", "0.755")
    assert not [finding for finding in planned.findings if finding.weight == MUST_FIX]


@pytest.mark.parametrize(
    ("per", "fluid", "code"),
    [("litre drained", "", "fee_without_fluid"), ("Engine oil", "coolant", "fee_with_fluid")],
)
def test_a_fee_without_its_fluid_is_named_at_its_cell(per: str, fluid: str, code: str) -> None:
    (finding,) = (candidate for candidate in rules(Fees=fee(per, fluid)).findings if candidate.weight == MUST_FIX)
    assert (finding.code, finding.row, finding.field, dict(finding.facts)) == (
        code,
        2,
        "fluid",
        {"what": "Old coolant"},
    )


def fluids(actor: Actor, *names: str) -> list[tuple[str, int, str, dict[str, str]]]:
    rows = [HEADS, *([f"f{at}", "Old", "0.5", "fee", "litre drained", name] for at, name in enumerate(names))]
    findings = RULES.check(actor, rules(Fees=rows).plan).findings
    return [(finding.code, finding.row, finding.field, dict(finding.facts)) for finding in findings]


def test_a_fluid_that_nothing_drains_is_remarked_on_at_its_cell(cast: Cast) -> None:
    """Known fluids are the capacity columns of vehicle files, and the capacities of the shop's vehicles and kits."""
    actor = cast.acting("manager")
    VehicleFactory(shop=actor.shop, capacities={"rear axle": "1.2"})
    VehicleFactory(shop=cast.elsewhere, capacities={"power steering": "1.0"})
    kit, oil = KitRevisionFactory(shop=actor.shop), ConsumableFactory(shop=actor.shop)
    for at, (rule, of) in enumerate([("of_capacity", "transfer box"), ("per_fastener", "8")]):
        Need.objects.create(shop=actor.shop, revision=kit, position=at, consumable=oil, rule=rule, quantity=1, basis=of)
    assert fluids(actor, "Coolant", "Rear_axle", "transfer  box", "engine oil") == []
    assert fluids(actor, "coolant", "cooland") == [("fluid_like", 3, "fluid", {"what": "cooland", "meant": "coolant"})]
    remarks = fluids(actor, "Power steering", "8")
    assert [remark[:2] for remark in remarks] == [("fluid_unknown", 2), ("fluid_unknown", 3)]
    assert [remark[3]["what"] for remark in remarks] == ["power steering", "8"]


@pytest.mark.parametrize(
    ("written", "way"), [("Whole packs", "pack"), ("as used", "used"), ("Shop supplies", "supplies")]
)
def test_a_sheet_says_how_a_consumable_is_charged(written: str, way: str) -> None:
    planned = rules(Consumables=[["Consumable", "Charged as"], ["Engine oil", written]])
    assert not [finding for finding in planned.findings if finding.weight == MUST_FIX]
    assert Rules.from_json(planned.plan.rules).charges == {"engine oil": way}


def test_a_way_of_charging_that_nobody_knows_is_named_at_its_cell() -> None:
    planned = rules(Consumables=[["Consumable", "Charged as"], ["Engine oil", "by the spoon"]])
    (finding,) = (candidate for candidate in planned.findings if candidate.weight == MUST_FIX)
    assert (finding.row, finding.field) == (2, "charge")
