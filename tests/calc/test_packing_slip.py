"""The goods of a job that a supplier's packing slip brings."""

from decimal import Decimal

from kitting.calc.packing_slip import ListedGoods, SlipMatch, match_slip


def goods(*lines: tuple[str, str, int]) -> list[ListedGoods]:
    return [ListedGoods(line, number, Decimal(lacks)) for line, number, lacks in lines]


def packed(**numbers: int) -> list[tuple[str, Decimal]]:
    return [(number, Decimal(quantity)) for number, quantity in numbers.items()]


def test_a_line_is_on_its_way_if_all_that_it_lacks_was_packed() -> None:
    listed = goods(("1", "a", 2), ("2", "a", 3), ("3", "b", 4), ("4", "c", 0), ("5", "e", 1))
    assert match_slip(packed(a=6, b=3, c=1, d=1), listed) == SlipMatch(
        ("1", "2"), {"b": Decimal(1)}, frozenset("d"), frozenset("b")
    )
    assert match_slip([*packed(a=1), *packed(a=1)], listed).lines == ("1",)
    assert match_slip(packed(a=4), listed) == SlipMatch(("1",), {"a": Decimal(1)}, frozenset())


def test_a_packed_kit_brings_all_lines_of_as_many_unopened_boxes() -> None:
    boxes = [
        ListedGoods("1", "a", Decimal(2), "kit", "kit 1"),
        ListedGoods("2", "b", Decimal(0), "kit", "kit 1"),
        ListedGoods("3", "a", Decimal(2), "kit", "kit 2"),
        ListedGoods("4", "a", Decimal(1), "kit", ""),
    ]
    assert match_slip(packed(kit=1), boxes) == SlipMatch(("1", "2"), {}, frozenset())
    assert match_slip(packed(kit=2), boxes).lines == ("1", "2", "3")
    assert match_slip(packed(kit=1, a=3), boxes).lines == ("1", "2", "3", "4")
