"""Pull lines from the places of a kit."""

from decimal import Decimal as D
from uuid import UUID

import pytest

from kitting.calc.contents import (
    DraftLine,
    KitContents,
    PartFacts,
    Place,
    PullNeed,
    RefittedPart,
    box_lines,
    need_line,
    pieces,
    reused_lines,
)
from kitting.calc.explosion import ChildLine, Condition, KitTree, Node, flatten

MANUAL = (Condition("gearbox", ("manual",)),)
BOX = PartFacts(UUID(int=9), "BOX", "Kit box", "pc")
PARTS = {name: PartFacts(UUID(int=at), name, name.title(), "pc") for at, name in enumerate(("PIN", "CLIP", "NUT"))}
PLACES = {
    "carton": Place("carton", "Carton 2", 1),
    "outer": Place("bag", "Bag 2-1", 2),
    "inner": Place("bag", "Bag 2-1-a", 3),
    "pin": Place("part", "", 4, operation="FIT"),
    "clip": Place("part", "", 5),
    "nut": Place("part", "", 6, role="spare"),
}


def kit(places: dict[str, Place] = PLACES, gearbox: str = "automatic") -> KitContents:
    nodes = {
        "root": Node(children=(ChildLine("carton", D(1)), ChildLine("nut", D(6)))),
        "carton": Node(children=(ChildLine("outer", D(1)), ChildLine("clip", D(2), MANUAL))),
        "outer": Node(children=(ChildLine("inner", D(2)),)),
        "inner": Node(children=(ChildLine("pin", D(4)),)),
        "pin": Node("PIN"),
        "clip": Node("CLIP"),
        "nut": Node("NUT"),
    }
    contents = flatten(KitTree("root", nodes, {"gearbox": gearbox}, {}))
    return KitContents("A", BOX, contents, places, PARTS, (RefittedPart("Hose", D(2), "OFF", "ON"),))


def where(line: DraftLine) -> tuple[str, str, str, D, str]:
    return line.kind, line.number, line.carton, line.quantity, line.bag


def test_every_place_is_a_line_in_reading_order() -> None:
    assert [where(line) for line in box_lines(kit(), 1)] == [
        ("box", "PIN", "Carton 2", D(8), "Bag 2-1-a"),
        ("beside", "CLIP", "Carton 2", D(2), ""),
        ("box", "NUT", "", D(6), ""),
    ]


def test_a_line_knows_its_operation_its_role_and_which_copy_it_is_of() -> None:
    pin, _, nut = box_lines(kit(), 2)
    assert (pin.operation, pin.copy, nut.copy) == ("FIT", 2, 2) and (pin.detail, nut.detail) == ({}, {"role": "spare"})


def test_a_kit_whose_contents_nobody_knows_is_one_box() -> None:
    (line,) = box_lines(kit(places={}), 1)
    assert (line.kind, line.number, line.quantity) == ("box", "BOX", D(1))


def test_what_is_used_again_is_wanted_where_it_goes_back_on() -> None:
    (line,) = reused_lines(kit(), 2)
    assert (line.kind, line.title, line.quantity, line.operation) == ("reused", "Hose", D(2), "ON")
    assert (line.copy, line.detail) == (2, {"off_at": "OFF", "back_at": "ON"})


def test_a_need_says_what_for() -> None:
    line = need_line(PullNeed(UUID(int=7), "OIL-5", "Oil", D(2), "pc", "FIT", {"why": "6.1 L"}))
    assert (line.kind, line.quantity, line.operation, line.detail) == ("need", D(2), "FIT", {"why": "6.1 L"})


@pytest.mark.parametrize(
    ("quantity", "unit", "counted"),
    [("4", "pc", 4), ("3.5", "pc", 4), ("2", "pair", 2), ("2.4", "m", 1), ("12", "L", 1)],
)
def test_hose_and_fluid_are_counted_as_what_they_come_in(quantity: str, unit: str, counted: int) -> None:
    assert pieces(D(quantity), unit) == counted
