"""The reasons for the hours of an operation, in the order of the steps of the calculation.

Codes and facts: `first_fit` (kit, factor, hours), `once` (kits, count, longest), `summed` (kits, count, hours),
`included_in` (operation, hours), `raised_by` (operation, hours), `overlap` (operation, hours), `condition` (factor,
hours). `hours` is the result of the step, except for `included_in` (the gathered hours that are handed on) and
`overlap` (the hours deducted).
"""

from collections.abc import Iterator
from decimal import Decimal

from quotes.calc.labour_input import SharingRule
from quotes.calc.visit import KitHours, LabourCatalogue, VisitHours, catalogue_factor
from shop.calc.reason import Reason


def explain(code: str, visit: VisitHours, catalogue: LabourCatalogue) -> tuple[Reason, ...]:
    """The reasons for the line of `code`; empty if it is charged exactly as its only kit states."""
    return (
        *_first_fit(visit.kit_hours[code]),
        *_shared(code, visit, catalogue),
        *_inclusion(code, visit),
        *_overlaps(code, visit),
        *_condition(code, visit, catalogue),
    )


def _first_fit(entries: list[KitHours]) -> Iterator[Reason]:
    multiplied = dict.fromkeys(entry for entry in entries if entry.first_fit != 1)
    for entry in multiplied:
        yield Reason.of("first_fit", kit=entry.kit, factor=entry.first_fit, hours=entry.adjusted)


def _shared(code: str, visit: VisitHours, catalogue: LabourCatalogue) -> Iterator[Reason]:
    entries = visit.kit_hours[code]
    if len(entries) < 2:
        return
    kits = tuple(sorted({entry.kit for entry in entries}))
    if catalogue.operations[code].sharing is SharingRule.ONCE:
        yield Reason.of("once", kits=kits, count=len(entries), longest=visit.gathered[code])
    else:
        yield Reason.of("summed", kits=kits, count=len(entries), hours=visit.gathered[code])


def _inclusion(code: str, visit: VisitHours) -> Iterator[Reason]:
    if code in visit.handed_to:
        yield Reason.of("included_in", operation=visit.handed_to[code], hours=visit.gathered[code])
    elif visit.raised[code] > visit.gathered[code]:
        yield Reason.of("raised_by", operation=_raiser(code, visit), hours=visit.raised[code])


def _raiser(code: str, visit: VisitHours) -> str:
    handed = (inner for inner, outer in visit.handed_to.items() if outer == code)
    return min(handed, key=lambda inner: (-visit.gathered[inner], inner))


def _overlaps(code: str, visit: VisitHours) -> Iterator[Reason]:
    for deduction in visit.deductions.get(code, ()):
        yield Reason.of("overlap", operation=deduction.other, hours=deduction.hours)


def _condition(code: str, visit: VisitHours, catalogue: LabourCatalogue) -> Iterator[Reason]:
    factor = catalogue_factor(catalogue, code)
    exact: Decimal = visit.together[code]
    if factor != 1 and exact > 0:
        yield Reason.of("condition", factor=factor, hours=exact * factor)
