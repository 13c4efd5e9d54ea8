"""Operations that follow one another: what is wrong with a sheet, and the order it is walked in.

Shared by the calculations of readiness and promise.
"""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from heapq import heappop, heappush
from typing import Protocol, TypeVar

from shop.calc.errors import CalculationError


class Task(Protocol):
    """An operation of a sheet: its code, billed hours >= 0, and the codes it comes after."""

    @property
    def code(self) -> str: ...

    @property
    def hours(self) -> Decimal: ...

    @property
    def after(self) -> tuple[str, ...]: ...


T = TypeVar("T", bound=Task)


def walk(sheet: Sequence[T]) -> tuple[T, ...]:
    """Again and again the first operation in sheet order whose predecessors are all walked.

    Refuses `duplicate_operation`, `negative_hours` (also hours that are no number), `unknown_operation` (in
    `after`), `loop` (named operation by operation).
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
    """For how many others each operation of a checked sheet still waits; operations are named by their place."""

    def __init__(self, sheet: Sequence[Task]) -> None:
        places = {task.code: place for place, task in enumerate(sheet)}
        self._for = [len(set(task.after)) for task in sheet]
        self._followers: list[list[int]] = [[] for _ in sheet]
        for place, task in enumerate(sheet):
            for code in set(task.after):
                self._followers[places[code]].append(place)

    def copy(self) -> "PendingPredecessors":
        """The same sheet as it waits now: what is done in one of the two does not count in the other."""
        twin = PendingPredecessors(())
        twin._for, twin._followers = self._for.copy(), self._followers
        return twin

    @property
    def ready(self) -> tuple[int, ...]:
        """Those that wait for nothing, in sheet order."""
        return tuple(place for place, count in enumerate(self._for) if not count)

    @property
    def places(self) -> tuple[int, ...]:
        """Those that wait for others."""
        return tuple(place for place, count in enumerate(self._for) if count)

    def without(self, place: int) -> Iterator[int]:
        """Those that wait for nothing more now that the operation at `place` is behind them."""
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
    """From any operation left over back to predecessors left over, until one comes again."""
    left_over = {sheet[place].code: sheet[place].after for place in waiting.places}
    code = next(iter(left_over))
    path: dict[str, None] = {}
    while code not in path:
        path[code] = None
        code = next(predecessor for predecessor in left_over[code] if predecessor in left_over)
    codes = list(path)
    return " > ".join([code, *reversed(codes[codes.index(code) :])])
