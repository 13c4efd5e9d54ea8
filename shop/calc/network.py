"""Operations that follow one another: what is wrong with a sheet, and the order it is walked in.

Shared by the calculations of readiness and promise.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from heapq import heapify, heappop, heappush
from typing import Protocol, TypeVar

from shop.calc.refusal import Refusal


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
    places = _places(sheet)
    waiting = {task.code: len(set(task.after)) for task in sheet}
    followers: dict[str, list[int]] = {code: [] for code in places}
    for place, task in enumerate(sheet):
        for code in set(task.after):
            followers[code].append(place)
    ready = [place for place, task in enumerate(sheet) if not waiting[task.code]]
    heapify(ready)
    order: list[T] = []
    while ready:
        task = sheet[heappop(ready)]
        order.append(task)
        for place in followers[task.code]:
            waiting[sheet[place].code] -= 1
            if not waiting[sheet[place].code]:
                heappush(ready, place)
    if len(order) < len(sheet):
        raise Refusal("loop", _loop({task.code: task.after for task in sheet}, waiting))
    return tuple(order)


def _places(sheet: Sequence[Task]) -> dict[str, int]:
    places: dict[str, int] = {}
    for place, task in enumerate(sheet):
        if task.code in places:
            raise Refusal("duplicate_operation", task.code)
        if not task.hours.is_finite() or task.hours < 0:
            raise Refusal("negative_hours", f"{task.code}: {task.hours}")
        places[task.code] = place
    for task in sheet:
        for code in task.after:
            if code not in places:
                raise Refusal("unknown_operation", f"{code} before {task.code}")
    return places


def _loop(after: Mapping[str, tuple[str, ...]], waiting: Mapping[str, int]) -> str:
    """From any operation left over back to predecessors left over, until one comes again."""
    code = next(code for code, count in waiting.items() if count)
    way: dict[str, None] = {}
    while code not in way:
        way[code] = None
        code = next(one for one in after[code] if waiting[one])
    codes = list(way)
    return " > ".join([code, *reversed(codes[codes.index(code) :])])
