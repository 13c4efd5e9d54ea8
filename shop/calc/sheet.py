"""One order of work out of the templates of several kits."""

from collections.abc import Collection, Iterable, Sequence
from dataclasses import dataclass
from decimal import Decimal

from shop.calc.network import walk

NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class SheetStep:
    """One step of a template: the codes it comes after, and whether it applies to this vehicle."""

    code: str
    after: tuple[str, ...] = ()
    applies: bool = True
    hours: Decimal = NOTHING  # what `walk` asks of a task; the order does not depend on it


def merged_sheet(sheets: Sequence[Sequence[SheetStep]]) -> tuple[SheetStep, ...]:
    """Each operation once, behind every step that any template puts before it; else in the order of the sheets.

    A step that does not apply passes its predecessors on. Where two templates want opposite orders, the earlier one has
    its way: the work can always be put in some order.
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
    """Of the operations of `returns`, those after which the vehicle can really move again: wheels back on are not
    enough while another kit still has its front off.

    In `order`, an operation of `leaves` takes the vehicle apart for every template that has it, one of `returns` puts
    it together again for its own; it can move once it is apart for none.
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
    """The steps that apply, dropped predecessors replaced by theirs; a step stands below its predecessors."""
    passed: dict[str, tuple[str, ...]] = {}
    applying: list[SheetStep] = []
    for step in sheet:
        after = tuple(dict.fromkeys(code for predecessor in step.after for code in passed.get(predecessor, ())))
        passed[step.code] = (step.code,) if step.applies else after
        if step.applies:
            applying.append(SheetStep(step.code, after))
    return applying


def _comes_before(code: str, later: str, before: dict[str, dict[str, None]]) -> bool:
    """Whether `code` already stands somewhere before `other`."""
    waiting, seen = [later], {later}
    while waiting:
        current = waiting.pop()
        if current == code:
            return True
        fresh = [predecessor for predecessor in before.get(current, ()) if predecessor not in seen]
        seen.update(fresh)
        waiting += fresh
    return False
