"""Every refusal of a worked case names its culprit: the codes of the loop, the part, the tax."""

from pathlib import Path
from typing import Any

import pytest

from shop.calc.errors import CalculationError
from shop.vectors.registry import calculations_of
from shop.vectors.runner import read_case, read_file
from shop.words import knows

FIXTURES = Path(__file__).parents[2] / "fixtures" / "vectors"
CALCULATIONS = calculations_of(("shop", "kitting", "quotes"))
REFUSED = {
    f"{calculation} {case.id}": case
    for calculation, cases in (read_file(file) for file in sorted(FIXTURES.glob("*.json")))
    for case in (read_case(calculation, title) for title in cases)
    if "error" in case.expect
}
NAMED = {
    "ceiling ceiling-s011": "unknown_rule: generous",
    "ceiling ceiling-s012": "bad_rule: percent_capped without cap",
    "ceiling ceiling-s013": "bad_rule: banded with floor -1.00",
    "ceiling ceiling-s014": "negative_amount: extra -0.01",
    "charge charge-012": "unknown_charge: by the spoon",
    "charge charge-013": "unknown_charge: none",
    "contingency contingency-s008": "negative_amount: unit price -0.01",
    "contingency contingency-s009": "bad_quantity: quantity 0",
    "contingency contingency-s010": "bad_quantity: cap 0",
    "contingency contingency-s011": "bad_quantity: happened -1",
    "coolant coolant-s017": "target_out_of_range: 0.299",
    "coolant coolant-s018": "target_out_of_range: 0.651",
    "coolant coolant-s019": "drained_out_of_range: 10.001",
    "coolant coolant-s020": "premix_out_of_range: 1",
    "coolant coolant-s021": "residual_out_of_range: 42",
    "account account-s008": "not_rounded: agreed 10.005",
    "account account-s009": "not_rounded: payment 0.005",
    "account account-s010": "core_adds: 0.01",
    "account account-s014": "call_off_adds: 0.01",
    "account account-s011": "happened_takes: -0.01",
    "account account-s012": "unknown_row: tip",
    "worked worked-s005": "bad_hours: 0.8 of 0.7",
    "worked worked-s006": "bad_hours: 0 of 0",
    "deposit deposit-s010": "bad_rule: percent 100.01",
    "deposit deposit-s011": "bad_rule: base labour",
    "deposit deposit-s012": "negative_amount: not_returnable -0.01",
    "discount discount-s010": "bad_discount: amount -5.00",
    "discount discount-s011": "bad_discount: percent and amount",
    "discount discount-s012": "bad_discount: neither percent nor amount",
    "discount discount-s013": "discount_too_large: 100.01 of 100.00",
    "explode err-kit-loop": "kit_loop: C > BG > C",
    "explode err-supersession-loop": "supersession_loop: P-2 > P-3 > P-2",
    "explode err-unknown-node": "unknown_node: BAG-9",
    "explode err-zero-quantity": "bad_quantity: K > P: 0",
    "explode err-quantity-word": "bad_quantity: K > P: NaN",
    "explode err-empty-carton": "bad_node: C",
    "labour labour-s017": "includes_loop: a > b > a",
    "labour labour-s018": "unknown_operation: z (kit A)",
    "labour labour-s019": "unknown_rate: fabrication (weld)",
    "labour labour-s020": "negative_hours: a in kit A",
    "labour labour-s029": "bad_factor: A 0.95",
    "labour labour-s030": "bad_factor: condition_factor 0.9",
    "landed landed-s019": "bad_quantity: hose 0",
    "lots lots-s010": "bad_quantity: L1: -0.1",
    "lots lots-s011": "bad_quantity: need: -1",
    "lots lots-s012": "duplicate_lot: L1",
    "outlook outlook-s009": "never_open: America/Toronto",
    "outlook outlook-s010": "loop: A10 > A20 > A10",
    "outlook outlook-s011": "unknown_operation: A99 before A10",
    "outlook outlook-s012": "duplicate_operation: A10",
    "outlook outlook-s013": "negative_hours: A10: -0.5",
    "outlook outlook-s014": "bad_efficiency: 0",
    "outside outside-p010": "negative_amount: cost -1.00",
    "outside outside-p011": "negative_amount: markup -0.1",
    "outside outside-p012": "negative_amount: handling -5.00",
    "packs packs-s018": "no_packs: 1",
    "packs packs-s019": "bad_pack: odd",
    "packs packs-s020": "bad_pack: odd",
    "promise err-loop": "loop: A > B > A",
    "readiness err-loop": "loop: A > B > A",
    "promise err-unknown": "unknown_operation: PREP before A",
    "readiness err-unknown": "unknown_operation: PREP before A",
    "promise err-never-open": "never_open: America/Toronto",
    "promise err-efficiency": "bad_efficiency: 0",
    "promise err-negative-hours": "negative_hours: A: -0.5",
    "readiness err-negative-hours": "negative_hours: A: -1.0",
    "readiness err-negative-need": "bad_quantity: A bolt: -1",
    "readiness err-duplicate": "duplicate_operation: A",
    "range range-s010": "no_totals: totals",
    "range range-s011": "no_totals: hours",
    "range range-s012": "negative_total: total -0.01",
    "supplied supplied-010": "bad_share: 1.01",
    "supplied supplied-011": "negative_hours: A",
    "supplied supplied-012": "unknown_rate: fabrication",
    "totals totals-s021": "tax_loop: A > B > A",
    "totals totals-s022": "duplicate_tax: A",
    "totals totals-s023": "unknown_tax: Z under A",
    "weigh weigh-s014": "sample_too_small: 9",
    "weigh weigh-s016": "bad_mass: sample 0",
    "weigh weigh-s017": "bad_mass: batch 3.0 below tare 3.1",
}


def refusal(calculation: str, case: dict[str, Any]) -> str:
    with pytest.raises(CalculationError) as refused:
        CALCULATIONS[calculation](case)
    return str(refused.value)


@pytest.mark.parametrize("id", sorted(REFUSED))
def test_a_worked_case_is_refused_by_its_culprit(id: str) -> None:
    case = REFUSED[id]
    assert refusal(case.calculation, case.given) == NAMED[id]


def test_every_code_of_the_worked_cases_has_a_sentence_of_its_own() -> None:
    codes = {case.expect["error"] for case in REFUSED.values()}
    assert sorted(code for code in codes if not knows(f"calc.{code}")) == []


def loop_of_three(name: str) -> tuple[str, dict[str, Any]]:
    """A small input in which each member depends on the next, and the last on the first."""
    following = {"a": "b", "b": "c", "c": "a"}
    if name == "includes_loop":
        operations = {code: {"skill": "m", "includes": [other]} for code, other in following.items()}
        return "labour", {"kits": [], "operations": operations, "rates": {"m": "1"}, "exponent": "2"}
    if name == "tax_loop":
        taxes = [{"code": a, "rate": "0.1", "classes": ["x"], "on_top_of": [b]} for a, b in following.items()]
        return "totals", {"lines": [], "taxes": taxes, "rounding": "document", "exponent": "2"}
    if name == "kit_loop":
        nodes = {a: {"children": [{"node": b, "quantity": "1"}]} for a, b in following.items()}
        return "explode", {"root": "a", "nodes": nodes}
    if name == "supersession_loop":
        nodes = {"k": {"children": [{"node": "p", "quantity": "1"}]}, "p": {"part": "a"}}
        return "explode", {"root": "k", "nodes": nodes, "superseded_by": following}
    operations = [{"code": b, "hours": "1", "after": [a]} for a, b in following.items()]
    return "readiness", {"operations": operations, "on_hand": {}}


@pytest.mark.parametrize("name", ["includes_loop", "tax_loop", "kit_loop", "supersession_loop", "loop"])
def test_a_loop_is_told_member_by_member_in_its_order(name: str) -> None:
    code, _, members = refusal(*loop_of_three(name)).partition(": ")
    loop = members.split(" > ")
    assert code == name and loop[0] == loop[-1] and len(loop) == 4
    following = {"a": "b", "b": "c", "c": "a"}
    assert all(following[first] == second for first, second in zip(loop, loop[1:], strict=False)), members


def test_the_table_speaks_of_worked_cases_only() -> None:
    assert NAMED.keys() == REFUSED.keys()
