"""Ratios measured in one run: two pieces of work in turn, so that a machine that slows down slows both."""

import gc
from collections.abc import Callable
from decimal import Decimal
from statistics import median
from time import process_time

RUNS = 15


def ratio(kitwright: Callable[[], object], bare: Callable[[], object], runs: int = RUNS) -> tuple[float, float, float]:
    """(median ratio, median ms of ours, median ms of the bare one), CPU time, after two runs that do not count.

    The garbage collector leaves alone what the test process holds: walking it would be charged to whichever makes more.
    """
    gc.collect()
    gc.freeze()
    pairs = [(_took(kitwright), _took(bare)) for _ in range(runs + 2)][2:]
    gc.unfreeze()
    return (
        median(first / second for first, second in pairs),
        1000 * median(first for first, _ in pairs),
        1000 * median(second for _, second in pairs),
    )


def yardstick() -> None:
    """A fixed piece of exact arithmetic, some milliseconds: how fast the machine is just now."""
    total = Decimal(0)
    for number in range(1, 10_001):
        total = max(total + Decimal(number) / 7, total)


def once(work: Callable[[], object]) -> float:
    return 1000 * _took(work)


def _took(work: Callable[[], object]) -> float:
    began = process_time()
    work()
    return process_time() - began
