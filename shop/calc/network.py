"""The precedence network of a job sheet: validation and topological order.

The calculations of readiness and promise share this module.
"""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from heapq import heappop, heappush
from typing import Protocol, TypeVar

from shop.calc.errors import CalculationError


class Task(Protocol):
    """An operation of a sheet: its code, billed hours >= 0, and the codes of its predecessors."""

    @property
    def code(self) -> str: ...

    @property
    def hours(self) -> Decimal: ...

    @property
    def after(self) -> tuple[str, ...]: ...


T = TypeVar("T", bound=Task)


def walk(sheet: Sequence[T]) -> tuple[T, ...]:
    """The operations in topological order; of those that are ready, the first in sheet order comes next.

    Refuses `duplicate_operation`, `negative_hours` (or hours that are not finite), `unknown_operation` (in `after`),
    `loop` (the codes of the cycle in order).
    """
    _check(sheet)
    waiting = PendingPredecessors(sheet)
    ready = list(waiting.ready)
    order: list[T] = []
    while ready:
        place = heappop(ready)
        order.append(sheet[place])
        for follower in waiting.without(place):
            heappush(ready, follower)
    if len(order) < len(sheet):
        raise CalculationError("loop", _loop(sheet, waiting))
    return tuple(order)


class PendingPredecessors:
    """Counts the predecessors of each operation that are not done yet. Operations are identified by their place.

    The sheet has to be valid: `walk` checks it.
    """

    def __init__(self, sheet: Sequence[Task]) -> None:
        places = {task.code: place for place, task in enumerate(sheet)}
        self._for = [len(set(task.after)) for task in sheet]
        self._followers: list[list[int]] = [[] for _ in sheet]
        for place, task in enumerate(sheet):
            for code in set(task.after):
                self._followers[places[code]].append(place)

    def copy(self) -> "PendingPredecessors":
        """An independent copy of the present state."""
        twin = PendingPredecessors(())
        twin._for, twin._followers = self._for.copy(), self._followers
        return twin

    @property
    def ready(self) -> tuple[int, ...]:
        """The places of the operations without pending predecessors, in sheet order."""
        return tuple(place for place, count in enumerate(self._for) if not count)

    @property
    def places(self) -> tuple[int, ...]:
        """The places of the operations that still have pending predecessors."""
        return tuple(place for place, count in enumerate(self._for) if count)

    def without(self, place: int) -> Iterator[int]:
        """Marks the operation at `place` as done and yields the places of those that become ready."""
        for follower in self._followers[place]:
            self._for[follower] -= 1
            if not self._for[follower]:
                yield follower


def _check(sheet: Sequence[Task]) -> None:
    codes: set[str] = set()
    for task in sheet:
        if task.code in codes:
            raise CalculationError("duplicate_operation", task.code)
        if not task.hours.is_finite() or task.hours < 0:
            raise CalculationError("negative_hours", f"{task.code}: {task.hours}")
        codes.add(task.code)
    for task in sheet:
        for code in task.after:
            if code not in codes:
                raise CalculationError("unknown_operation", f"{code} before {task.code}")


def _loop(sheet: Sequence[Task], waiting: PendingPredecessors) -> str:
    """The codes of one cycle, found by following predecessors from any operation that was not reached."""
    left_over = {sheet[place].code: sheet[place].after for place in waiting.places}
    code = next(iter(left_over))
    path: dict[str, None] = {}
    while code not in path:
        path[code] = None
        code = next(predecessor for predecessor in left_over[code] if predecessor in left_over)
    codes = list(path)
    return " > ".join([code, *reversed(codes[codes.index(code) :])])
