from hypothesis import given
from hypothesis import strategies as st

from shop.calc.sheet import SheetStep, merged_sheet, mobile_again


def chain(*codes: str) -> list[SheetStep]:
    """A template in which each step follows the previous one."""
    return [SheetStep(code, codes[at - 1 : at] if at else ()) for at, code in enumerate(codes)]


def order(*sheets: list[SheetStep]) -> list[str]:
    return [step.code for step in merged_sheet(sheets)]


def test_one_template_keeps_its_order() -> None:
    assert order(chain("SET", "OFF", "FIT", "ON", "ROAD")) == ["SET", "OFF", "FIT", "ON", "ROAD"]


def test_shared_work_waits_for_every_kit() -> None:
    codes = order(chain("SET", "OFF", "TURBO", "ON", "ROAD"), chain("SET", "BRAKES", "ROAD"))
    assert codes.index("BRAKES") < codes.index("ROAD") and codes[0] == "SET" and codes[-1] == "ROAD"


def test_a_step_that_does_not_apply_passes_its_predecessors_on() -> None:
    sheet = [SheetStep("A"), SheetStep("B", ("A",), applies=False), SheetStep("C", ("B",))]
    assert [(step.code, step.after) for step in merged_sheet([sheet])] == [("A", ()), ("C", ("A",))]


def test_where_two_templates_disagree_the_earlier_has_its_way() -> None:
    assert order(chain("A", "B"), chain("B", "A")) == ["A", "B"]
    assert order(chain("B", "A"), chain("A", "B")) == ["B", "A"]


def test_a_predecessor_of_another_kit_only_is_no_obstacle() -> None:
    assert order([SheetStep("FIT", ("NOWHERE",))]) == ["FIT"]


SHEETS = st.lists(st.permutations("ABCDEFG").map(lambda codes: codes[:5]), min_size=1, max_size=4)


@given(SHEETS)
def test_everything_is_there_once_and_the_first_template_is_kept(sheets: list[list[str]]) -> None:
    merged = order(*(chain(*codes) for codes in sheets))
    assert sorted(merged) == sorted({code for codes in sheets for code in codes})
    places = [merged.index(code) for code in sheets[0]]
    assert places == sorted(places)


def test_wheels_back_on_are_not_enough_while_another_kit_has_the_front_off() -> None:
    turbo, brakes = (
        chain("SET", "FRONT OFF", "TURBO", "CHECK", "FRONT ON"),
        chain("SET", "WHEELS OFF", "WHEELS ON", "CHECK"),
    )
    leaves, returns = {"FRONT OFF", "WHEELS OFF"}, {"FRONT ON", "WHEELS ON"}

    def again(*sheets: list[SheetStep]) -> frozenset[str]:
        return mobile_again(sheets, order(*sheets), leaves, returns)

    assert again(turbo, brakes) == {"FRONT ON"}
    assert again(brakes, turbo) == {"WHEELS ON", "FRONT ON"}  # here the wheels are done before the front comes off
    assert again(brakes) == {"WHEELS ON"}


def test_one_step_may_take_apart_and_put_together() -> None:
    assert mobile_again([chain("SET", "SUMP")], ["SET", "SUMP"], {"SUMP"}, {"SUMP"}) == {"SUMP"}


def test_a_step_that_does_not_apply_takes_nothing_apart() -> None:
    cooler = [SheetStep("SET"), SheetStep("FRONT OFF", applies=False), SheetStep("WHEELS ON")]
    assert mobile_again([cooler], ["SET", "WHEELS ON"], {"FRONT OFF"}, {"WHEELS ON"}) == {"WHEELS ON"}
