"""How a condition compares values."""

from decimal import Decimal

import pytest

from kitting.calc.explosion import Condition, Kit, Node, Step, flatten

ONE = Decimal(1)


@pytest.mark.parametrize(("stated", "taken"), [("manual", True), ("Manual", False), ("manual ", False)])
def test_a_value_is_compared_letter_by_letter(stated: str, taken: bool) -> None:
    step = Step("clip", ONE, (Condition("gearbox", ("manual",)),))
    nodes = {"kit": Node(children=(step, Step("pin", ONE))), "clip": Node("CLIP"), "pin": Node("PIN")}
    assert ("CLIP" in flatten(Kit("kit", nodes, {"gearbox": stated}, {})).parts) is taken
