"""The rows that are met on one occasion, and the steps of a refill."""

from dataclasses import replace
from decimal import Decimal as D

from kitting.calc.needs import CircuitAssumptions, NeedRow, PooledNeed, pool_needs
from shop.calc.rules import CoolantRule

COOLANT = CoolantRule(D("0.65"), D("0.42"), D("0.5"), D("0.5"), D("0.05"), D("0.5"))
CIRCUITS = CircuitAssumptions({"coolant": D("14.2")}, COOLANT, D("1.25"))


def pooled(*rows: NeedRow, circuits: CircuitAssumptions = CIRCUITS) -> dict[str, PooledNeed]:
    return {need.item: need for need in pool_needs(rows, circuits)}


def row(kit: str, item: str, quantity: str, rule: str = "fixed", **values: object) -> NeedRow:
    return NeedRow(kit, item, rule, D(quantity), **values)  # type: ignore[arg-type]


def facts_of_step(need: PooledNeed, code: str) -> dict[str, object]:
    (matching,) = (step for step in need.steps if step.code == code)
    return matching.named


def test_work_that_is_done_for_each_kit_takes_what_each_kit_asks() -> None:
    rows = [row(kit, "clip", "4", operation="BUMPER") for kit in "AB"]
    assert pooled(*rows)["clip"].quantity == D(8)


def test_of_shared_work_a_kit_asks_for_all_its_rows() -> None:
    shared = {"operation": "BUMPER", "shared": True}
    rows = [row("A", "clip", "4", **shared), row("A", "clip", "3", **shared), row("B", "clip", "6", **shared)]
    need = pooled(*rows)["clip"]
    assert need.quantity == D(7)
    assert facts_of_step(need, "at_most") == {"kits": ("A", "B"), "quantity": D(7)}


def test_drops_are_counted_before_they_are_rounded() -> None:
    assert pooled(row("A", "locker", "0.06", "per_fastener", of="100"))["locker"].quantity == D("6.00")


def test_a_fluid_is_changed_at_the_largest_share_that_any_kit_asks() -> None:
    rows = [row(kit, "coolant", share, "of_capacity", of="coolant") for kit, share in (("A", "0.5"), ("B", "0.25"))]
    assert pooled(*rows)["coolant"].quantity == D("7.10")


def test_two_ways_of_charging_are_two_needs_in_any_order() -> None:
    rows = (row("A", "oil", "1"), row("B", "oil", "2", charge="supplies"), row("C", "oil", "4"))
    assert [(need.charge, need.quantity) for need in pool_needs(rows, CIRCUITS)] == [
        ("pack", D(5)),
        ("supplies", D(2)),
    ]


CONCENTRATE = row("A", "concentrate", "0.6", "refill", of="coolant", glycol="ethylene")
WATER = row("A", "water", "0.6", "refill_water", of="coolant")


def test_a_refill_is_told_from_the_circuit_to_the_order() -> None:
    need = pooled(CONCENTRATE, WATER)["concentrate"]
    assert [step.code for step in need.steps] == [
        "circuit",
        "drained",
        "stays",
        "circuit_with",
        "fill",
        "concentrate",
        "order",
    ]
    assert facts_of_step(need, "circuit_with") == {"added": D("0.6"), "litres": D("14.800")}
    assert facts_of_step(need, "drained") == {"share": D("0.65"), "before": D("14.2"), "litres": D("9.230")}
    assert facts_of_step(need, "stays") == {"litres": D("4.970"), "concentration": D("0.42")}
    assert facts_of_step(need, "fill") == {"after": D("14.800"), "stays": D("4.970"), "litres": D("9.830")}
    assert facts_of_step(need, "order")["litres"] == need.quantity == D("5.828")


def test_what_kits_ask_on_top_of_a_circuit_leads_to_the_whole_quantity() -> None:
    asks = (row("B", "concentrate", "1.2", "fixed"), row("C", "concentrate", "0.7", "fixed", operation="AUX"))
    need = pooled(CONCENTRATE, *asks)["concentrate"]
    reasons = {reason.code: reason.named for reason in need.reasons}
    assert reasons["need_besides"] == {"quantity": D("1.9"), "kits": ("B", "C")}
    assert reasons["need_refill"]["order"] + D("1.9") == need.quantity == D("7.728")
    assert [step.named.get("work") for step in need.steps if step.code == "ask"] == [None, "AUX"]
    assert "need_besides" not in {reason.code for reason in pooled(CONCENTRATE)["concentrate"].reasons}
    assert "need_besides" not in {reason.code for reason in pooled(*asks)["concentrate"].reasons}


def test_water_makes_no_circuit_larger() -> None:
    need = pooled(CONCENTRATE, WATER)["water"]
    assert facts_of_step(need, "water") == {"fill": D("9.830"), "concentrate": D("5.313"), "litres": D("4.517")}


def test_what_cannot_be_mixed_is_told_as_far_as_it_goes() -> None:
    little = replace(CIRCUITS, coolant=replace(COOLANT, drained_share=D("0.05"), residual=D("0.1")))
    need = pooled(CONCENTRATE, WATER, circuits=little)["concentrate"]
    assert (need.quantity, need.reasons[0].code, need.steps[-1].code) == (D(0), "mix_drain_more", "fill")


def test_two_glycols_in_one_circuit_protect_nobody_knows_how_far() -> None:
    other = replace(CONCENTRATE, kit="B", item="other", glycol="propylene")
    assert "protects" in [reason.code for reason in pooled(CONCENTRATE)["concentrate"].reasons]
    assert "protects" not in [reason.code for reason in pooled(CONCENTRATE, other)["concentrate"].reasons]
