from dataclasses import replace
from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from kitting.calc.needs import CircuitAssumptions, NeedRow, PooledNeed, pool_needs
from shop.calc.rules import CoolantRule

COOLANT = CoolantRule(D("0.65"), D("0.42"), D("0.5"), D("0.5"), D("0.05"), D("0.5"))
CIRCUITS = CircuitAssumptions({"coolant": D("14.2"), "engine oil": D("6.1")}, COOLANT, D("1.25"))


def pooled(*rows: NeedRow) -> dict[str, PooledNeed]:
    return {need.item: need for need in pool_needs(rows, CIRCUITS)}


def row(kit: str, item: str, quantity: str, rule: str = "fixed", **values: object) -> NeedRow:
    return NeedRow(kit, item, rule, D(quantity), **values)  # type: ignore[arg-type]


def test_needs_of_several_kits_are_added() -> None:
    need = pooled(row("A", "clip", "4"), row("C", "clip", "6"))["clip"]
    assert (need.quantity, need.kits) == (D(10), ("A", "C"))


def test_a_need_of_shared_work_counts_once_at_the_most_that_any_kit_asks() -> None:
    shared = {"operation": "BUMPER", "shared": True}
    need = pooled(row("A", "clip", "4", **shared), row("C", "clip", "6", **shared), row("C", "clip", "1"))["clip"]
    assert need.quantity == D(7)
    assert [reason.code for reason in need.reasons] == ["need_once"]


def test_a_fluid_is_changed_once_however_many_kits_ask() -> None:
    oil = {"rule": "of_capacity", "of": "engine oil"}
    assert pooled(row("A", "oil", "1", **oil), row("B", "oil", "1", **oil))["oil"].quantity == D("6.1")


def test_a_circuit_is_drained_once_and_grows_by_what_every_kit_adds() -> None:
    need = pooled(
        row("A", "concentrate", "0.4", "refill", of="coolant"),
        row("C", "concentrate", "0.2", "refill", of="coolant"),
        row("A", "water", "0", "refill_water", of="coolant"),
    )
    # drained 9.230; residual 4.970 at 0.42; to 14.800 at 0.5: 5.3126 concentrate of a fill of 9.830
    assert need["concentrate"].reasons[0].named["concentrate"] == D("5.313")
    assert need["concentrate"].quantity == D("5.828")  # and 5 % more, and half of the top-up
    assert need["water"].quantity == D("4.517")


def refill_of(glycol: str | None, coolant: CoolantRule = COOLANT, *others: NeedRow) -> tuple[PooledNeed, ...]:
    rows = (
        row("A", "concentrate", "0.4", "refill", of="coolant", glycol=glycol),
        row("A", "water", "0", "refill_water", of="coolant"),
        *others,
    )
    return pool_needs(rows, CircuitAssumptions({"coolant": D("14.2")}, coolant, D("1.25")))


def test_concentrate_and_water_both_say_the_mix_and_how_far_it_protects() -> None:
    for need in refill_of("ethylene"):
        mix, protects = need.reasons
        assert mix.named["concentrate"] + mix.named["water"] == mix.named["fill"] == D("9.630")
        assert protects.code == "protects"
        assert protects.named == {"degrees": D("-37.1"), "percent": D(50)}


@pytest.mark.parametrize("glycol", ["propylene", None])
def test_without_one_glycol_that_is_known_nothing_is_said_of_protection(glycol: str | None) -> None:
    other = row("B", "other", "0", "refill", of="coolant", glycol=glycol)
    for needs in (refill_of(None), refill_of("ethylene", COOLANT, other)):
        assert "protects" not in {reason.code for need in needs for reason in need.reasons}


@pytest.mark.parametrize(
    ("drained", "residual", "code"), [("0.10", "0.42", "mix_drain_more"), ("0.10", "0.60", "mix_too_strong")]
)
def test_a_target_that_cannot_be_reached_says_how_much_to_drain(drained: str, residual: str, code: str) -> None:
    supposed = replace(COOLANT, drained_share=D(drained), residual=D(residual))
    for need in refill_of("ethylene", supposed):
        (reason,) = need.reasons
        assert (reason.code, reason.named["percent"], need.quantity) == (code, D(50), 0)
        assert reason.named["litres"] > D("1.42")


def test_what_depends_on_an_unknown_capacity_says_which() -> None:
    need = pooled(row("A", "atf", "1", "of_capacity", of="transmission fluid"))["atf"]
    assert (need.unknown, need.quantity) == ("transmission fluid", 0)


def test_fasteners_are_counted_together_and_a_bead_has_a_volume() -> None:
    needs = pooled(
        row("A", "locker", "0.08", "per_fastener", of="24"),
        row("B", "locker", "0.13", "per_fastener", of="8"),
        row("A", "sealant", "1.9", "bead", of="3"),
    )
    assert needs["locker"].quantity == D("2.96")
    assert needs["locker"].reasons[0].named == {"count": D(32)}
    assert needs["sealant"].quantity == D("16.8")  # pi/4 x 9 x 1.9 x 1.25


def test_charged_in_two_ways_they_stay_apart() -> None:
    needs = pool_needs((row("A", "oil", "1"), row("B", "oil", "2", charge="supplies")), CIRCUITS)
    assert [(need.charge, need.quantity) for need in needs] == [("pack", D(1)), ("supplies", D(2))]


@given(st.permutations([row("A", "x", "1"), row("B", "x", "2"), row("A", "y", "3"), row("C", "x", "0.5")]))
def test_order_does_not_matter(rows: list[NeedRow]) -> None:
    assert {item: need.quantity for item, need in pooled(*rows).items()} == {"x": D("3.5"), "y": D(3)}


@pytest.mark.parametrize("extra", ["0.1", "1", "20"])
def test_more_never_needs_less(extra: str) -> None:
    base = row("A", "x", "1", operation="OP", shared=True)
    more = row("B", "x", extra, operation="OP", shared=True)
    assert pooled(base, more)["x"].quantity >= pooled(base)["x"].quantity
