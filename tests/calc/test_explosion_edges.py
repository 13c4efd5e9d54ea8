"""Edge cases of comparing a condition's values."""

from decimal import Decimal

import pytest

from kitting.calc.explosion import ChildLine, Condition, KitTree, Node, flatten

ONE = Decimal(1)


@pytest.mark.parametrize(("stated", "taken"), [("manual", True), ("Manual", False), ("manual ", False)])
def test_a_value_is_compared_letter_by_letter(stated: str, taken: bool) -> None:
    step = ChildLine("clip", ONE, (Condition("gearbox", ("manual",)),))
    nodes = {"kit": Node(children=(step, ChildLine("pin", ONE))), "clip": Node("CLIP"), "pin": Node("PIN")}
    assert ("CLIP" in flatten(KitTree("kit", nodes, {"gearbox": stated}, {})).parts) is taken
