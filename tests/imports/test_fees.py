"""Fees and ways of charging are read with what they name; what is missing or unknown is reported at its cell."""

from datetime import date
from typing import Any

import pytest

from kitting.models import Need
from shop.access import Actor
from shop.calc.rules import Rules
from shop.imports.rules import KIND as RULES
from shop.models import RuleSet
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
    ("written", "way"),
    [
        ("Whole packs", "pack"),
        ("as used", "used"),
        ("Shop supplies", "supplies"),
        ("Covered by shop supplies", "supplies"),
    ],
)
def test_a_sheet_says_how_a_consumable_is_charged(written: str, way: str) -> None:
    planned = rules(Consumables=[["Consumable", "Charged as"], ["Engine oil", written]])
    assert not [finding for finding in planned.findings if finding.weight == MUST_FIX]
    assert Rules.from_json(planned.plan.rules).charges == {"engine oil": way}


def test_a_way_of_charging_that_nobody_knows_is_named_at_its_cell() -> None:
    planned = rules(Consumables=[["Consumable", "Charged as"], ["Engine oil", "by the spoon"]])
    (finding,) = (candidate for candidate in planned.findings if candidate.weight == MUST_FIX)
    assert (finding.row, finding.field) == (2, "charge")


def test_a_fee_on_a_family_that_no_consumable_has_is_refused_as_on_the_screen(cast: Cast) -> None:
    """A fee that is in force already stays, and a shop without consumables has nothing to compare with."""
    actor = cast.acting("manager")
    rows = [HEADS, ["oil", "Used oil", "0.8", "fee", "engine oil", ""], ["new", "Grease", "1", "fee", "greases", ""]]
    planned = rules(Fees=rows).plan

    def unknown() -> list[tuple[int, str, dict[str, str]]]:
        findings = RULES.check(actor, planned).findings
        return [(row.row, row.field, dict(row.facts)) for row in findings if row.code == "fee_family_unknown"]

    assert unknown() == []
    ConsumableFactory(shop=actor.shop, family="grease")
    ConsumableFactory(shop=cast.elsewhere, family="engine oil")
    facts = {"families": "grease"}
    assert unknown() == [(2, "per", facts | {"family": "engine oil"}), (3, "per", facts | {"family": "greases"})]
    in_force = {**planned.rules, "fees": planned.rules["fees"][:1]}
    RuleSet.objects.create(shop=actor.shop, number=1, valid_from=date(2026, 1, 1), rules=in_force)
    assert unknown() == [(3, "per", facts | {"family": "greases"})]
