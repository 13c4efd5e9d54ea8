"""A release holds what no earlier one holds: the rest of each proposed quantity."""

from decimal import Decimal as D

import pytest
from hypothesis import given
from hypothesis import strategies as st

from quotes.calc.still_to_release import still_to_release

quantities = st.lists(st.tuples(st.sampled_from(["A", "B", "C"]), st.integers(1, 9).map(D)), max_size=6)


@pytest.mark.parametrize(
    ("proposed", "released", "rests"),
    [
        ([("A", "2")], [], ["2"]),
        ([("A", "2")], [("A", "2")], ["0"]),
        ([("A", "3"), ("B", "1")], [("A", "2"), ("C", "5")], ["1", "1"]),
        ([("A", "2"), ("A", "2")], [("A", "3")], ["0", "1"]),
        ([("A", "0.5")], [("A", "4")], ["0.0"]),
        ([("A", "4")], [("A", "1"), ("A", "2")], ["1"]),
    ],
    ids=["nothing before", "all before", "a part of it", "two lines", "more than it takes", "two releases"],
)
def test_the_rest(proposed: list[tuple[str, str]], released: list[tuple[str, str]], rests: list[str]) -> None:
    decimals = [[(number, D(quantity)) for number, quantity in lines] for lines in (proposed, released)]
    assert still_to_release(*decimals) == tuple(map(D, rests))


def test_what_has_come_since_is_not_on_its_way() -> None:
    proposed, released = [("A", D(2)), ("B", D(1))], [("A", D(2)), ("B", D(1))]
    assert still_to_release(proposed, released, [("A", D(1)), ("C", D(4))]) == (D(1), D(0))
    assert still_to_release(proposed, released, [("A", D(9))]) == (D(2), D(0))


@given(proposed=quantities, released=quantities)
def test_nothing_is_released_twice_or_lost(proposed: list[tuple[str, D]], released: list[tuple[str, D]]) -> None:
    rests = still_to_release(proposed, released)
    for number in "ABC":
        needed_quantity = sum((quantity for name, quantity in proposed if name == number), D(0))
        earlier = sum((quantity for name, quantity in released if name == number), D(0))
        rest = sum((rest for (name, _), rest in zip(proposed, rests, strict=True) if name == number), D(0))
        assert rest == max(needed_quantity - earlier, 0)
    assert all(0 <= rest <= quantity for rest, (_, quantity) in zip(rests, proposed, strict=True))
