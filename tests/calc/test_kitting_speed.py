"""What is worked out on every tap in the parts store must not be felt."""

from collections.abc import Callable
from decimal import Decimal as D
from time import perf_counter

import pytest

from kitting.calc.counting import Event, fold
from kitting.calc.explosion import Kit, Node, Step, flatten
from kitting.calc.packs import Pack, choose_packs

pytestmark = pytest.mark.bench


def milliseconds(work: Callable[[], object]) -> float:
    """The best of five, so that the machine's other work does not count."""
    times = []
    for _ in range(5):
        began = perf_counter()
        work()
        times.append((perf_counter() - began) * 1000)
    return min(times)


def packs(*offers: tuple[str, str]) -> list[Pack]:
    return [Pack(size, D(size), D(price)) for size, price in offers]


COOLANT = packs(("1", "9.40"), ("4", "29.50"), ("10", "64.00"), ("20", "118.00"))
EIGHT = packs(("0.473", "6.49"), ("0.946", "9.99"), ("1", "10.20"), ("3.785", "34.99"), ("4", "36.80"))
EIGHT += packs(("5", "44.90"), ("18.927", "159.00"), ("20", "166.50"))


def test_a_common_need_is_met_at_once() -> None:
    assert milliseconds(lambda: choose_packs(D("12.3"), D(0), COOLANT, 2)) < 0.2


def test_two_hundred_of_the_smallest_of_eight_packs() -> None:
    assert milliseconds(lambda: choose_packs(D("94.6"), D(0), EIGHT, 2)) < 50


def test_four_hundred_leaves() -> None:
    nodes = {f"p{at}": Node(part=f"P{at}") for at in range(400)}
    bags = {f"b{bag}": Node(children=tuple(Step(f"p{bag * 20 + at}", D(2)) for at in range(20))) for bag in range(20)}
    kit = Kit("k", nodes | bags | {"k": Node(children=tuple(Step(bag, D("1.5")) for bag in bags))}, {}, {})
    assert milliseconds(lambda: flatten(kit)) < 10


@pytest.mark.parametrize("lines", [300, 1])
def test_two_thousand_events(lines: int) -> None:
    events = [
        Event(
            f"e{at}", f"l{at % lines}", "add" if at % 9 else "set", 1, 0, None, f"d{at % 5}", at, at - 30, "a", at + 1
        )
        for at in range(2000)
    ]
    assert milliseconds(lambda: fold(events)) < 50
