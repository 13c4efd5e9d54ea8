"""Merges the labour templates of several kits into one order of work."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from shop.calc.network import walk

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class SheetStep:
    """One step of a template: the codes of its predecessors, and whether it applies to this vehicle."""

    code: str
    after: tuple[str, ...] = ()
    applies: bool = True
    hours: Decimal = NOTHING  # required by the `Task` protocol; the order does not depend on it


def merged_sheet(sheets: Sequence[Sequence[SheetStep]]) -> tuple[SheetStep, ...]:
    """Each operation once, after its predecessors from all templates; otherwise in the order of the sheets.

    The successors of a step that does not apply take over its predecessors. Where two templates want opposite orders,
    the earlier template wins, so that an order always exists.
    """
    before: dict[str, dict[str, None]] = {}
    for sheet in sheets:
        for step in _applying(sheet):
            predecessors = before.setdefault(step.code, {})
            for code in step.after:
                if not _comes_before(step.code, code, before):
                    predecessors[code] = None
    return walk([SheetStep(code, tuple(after)) for code, after in before.items()])


def mobile_again(
    sheets: Sequence[Sequence[SheetStep]], order: Iterable[str], leaves: Collection[str], returns: Collection[str]
) -> frozenset[str]:
    """The operations of `returns` after which the vehicle can really move: no other kit still has it apart.

    The operations are processed in `order`. One of `leaves` takes the vehicle apart for every template that contains
    it; one of `returns` puts it back together for its own templates only.
    """
    holders: dict[str, set[int]] = {}
    for place, sheet in enumerate(sheets):
        for step in _applying(sheet):
            holders.setdefault(step.code, set()).add(place)
    apart, mobile = set[int](), set[str]()
    for code in order:
        if code in leaves:
            apart |= holders.get(code, set())
        if code in returns:
            apart -= holders.get(code, set())
            if not apart:
                mobile.add(code)
    return frozenset(mobile)


def _applying(sheet: Iterable[SheetStep]) -> list[SheetStep]:
    """The steps that apply.

    A predecessor that does not apply is replaced by its own; predecessors stand above their steps.
    """
    passed: dict[str, tuple[str, ...]] = {}
    applying: list[SheetStep] = []
    for step in sheet:
        after = tuple(dict.fromkeys(code for predecessor in step.after for code in passed.get(predecessor, ())))
        passed[step.code] = (step.code,) if step.applies else after
        if step.applies:
            applying.append(SheetStep(step.code, after))
    return applying


def _comes_before(code: str, later: str, before: dict[str, dict[str, None]]) -> bool:
    """True if `code` is already a direct or indirect predecessor of `later`."""
    waiting, seen = [later], {later}
    while waiting:
        current = waiting.pop()
        if current == code:
            return True
        fresh = [predecessor for predecessor in before.get(current, ()) if predecessor not in seen]
        seen.update(fresh)
        waiting += fresh
    return False
