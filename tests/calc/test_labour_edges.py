"""Ties, the order of the steps, and a kit that is listed twice."""

from decimal import Decimal as D

from quotes.calc.labour import (
    KitEntry,
    KitOperation,
    Labour,
    LabourInput,
    LabourOperation,
    Overlap,
    SharingRule,
    charge_labour,
)


def visit(*operations: LabourOperation, kits: int = 1, **hours: str) -> Labour:
    entry = KitEntry("K", tuple(KitOperation(code, D(value)) for code, value in hours.items()))
    return charge_labour(LabourInput((entry,) * kits, operations, rates={"mechanical": D(100)}))


def test_of_two_that_include_it_and_take_equally_long_the_first_by_code_is_handed_the_hours() -> None:
    outer = [LabourOperation(code, "mechanical", includes=("INNER",)) for code in ("FRONT", "BEHIND")]
    labour = visit(*outer, LabourOperation("INNER", "mechanical"), FRONT="1", BEHIND="1", INNER="2")
    assert {line.code: line.hours for line in labour.lines} == {
        "FRONT": D("1.0"),
        "BEHIND": D("2.0"),
        "INNER": D("0.0"),
    }
    assert {line.code: line.reasons[0].named["operation"] for line in labour.lines if line.reasons} == {
        "BEHIND": "INNER",
        "INNER": "BEHIND",
    }


def test_two_entries_of_one_kit_are_told_as_one_kit() -> None:
    (line,) = visit(LabourOperation("OFF", "mechanical"), kits=2, OFF="1.5").lines
    (reason,) = line.reasons
    assert (reason.code, reason.named) == ("once", {"kits": ("K",), "count": 2, "longest": D("1.5")})


def test_work_that_is_done_for_each_is_told_with_its_sum() -> None:
    (line,) = visit(LabourOperation("AIM", "mechanical", SharingRule.EACH), kits=2, AIM="0.5").lines
    (reason,) = line.reasons
    assert (reason.code, reason.named) == ("summed", {"kits": ("K",), "count": 2, "hours": D("1.0")})


def test_the_condition_multiplies_what_the_overlap_has_left() -> None:
    operations = (LabourOperation("OFF", "mechanical", exposed=True), LabourOperation("FIT", "mechanical"))
    entry = KitEntry("K", (KitOperation("OFF", D(2)), KitOperation("FIT", D(3))))
    labour_input = LabourInput(
        (entry,), operations, (Overlap("OFF", "FIT", D("0.5")),), D("1.4"), {"mechanical": D(100)}
    )
    assert {line.code: line.hours for line in charge_labour(labour_input).lines} == {"OFF": D("2.1"), "FIT": D("3.0")}
