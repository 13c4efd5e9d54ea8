"""The labour of one set of kits, from first fit to rounding: the charged hours and their reasons.

`charge_visit` runs once for the whole quote, once for every kit alone and once without every kit. For speed it works on
plain dictionaries keyed by operation code.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from decimal import Decimal

from quotes.calc.labour_input import KitEntry, LabourInput, LabourOperation, Overlap, SharingRule, included_codes
from shop.calc.money import rounded

_NOTHING = Decimal(0)


@dataclass(frozen=True, slots=True)
class LabourCatalogue:
    """The operations, inclusions and overlaps that are the same for every set of kits."""

    operations: Mapping[str, LabourOperation]
    includes: Mapping[str, frozenset[str]]
    overlaps: tuple[Overlap, ...]
    condition_factor: Decimal

    @classmethod
    def of(cls, labour_input: LabourInput) -> "LabourCatalogue":
        operations = {operation.code: operation for operation in labour_input.operations}
        # Sorted, so that the result does not depend on the order of the overlaps.
        overlaps = sorted(labour_input.overlaps, key=lambda pair: (*sorted((pair.a, pair.b)), pair.hours))
        return cls(operations, included_codes(labour_input.operations), tuple(overlaps), labour_input.condition_factor)


@dataclass(frozen=True, slots=True)
class KitHours:
    """The hours that one kit entry needs for one operation: `hours` as stated, `adjusted` after first fit."""

    kit: str
    hours: Decimal
    adjusted: Decimal
    first_fit: Decimal


@dataclass(frozen=True, slots=True)
class Deduction:
    """The hours that an overlap with `other` deducts from an operation."""

    other: str
    hours: Decimal


@dataclass(frozen=True, slots=True)
class VisitHours:
    """Figures by operation code. `handed_to` has only included operations, `deductions` only shortened ones."""

    kit_hours: Mapping[str, list[KitHours]]
    gathered: Mapping[str, Decimal]
    handed_to: Mapping[str, str]
    raised: Mapping[str, Decimal]
    deductions: Mapping[str, list[Deduction]]
    together: Mapping[str, Decimal]
    hours: Mapping[str, Decimal]

    @property
    def total_together(self) -> Decimal:
        return sum(self.together.values(), _NOTHING)

    @property
    def total_hours(self) -> Decimal:
        return sum(self.hours.values(), rounded(_NOTHING, 1))


def charge_visit(kits: tuple[KitEntry, ...], catalogue: LabourCatalogue) -> VisitHours:
    """The hours of `kits` fitted in one visit, exact until each line is rounded to 0.1."""
    kit_hours = _kit_hours(kits)
    gathered = {code: _gathered(catalogue.operations[code], entries) for code, entries in kit_hours.items()}
    handed_to = _handed_to(gathered, catalogue.includes)
    raised = _raised(gathered, handed_to)
    deductions = _deductions(gathered, raised, catalogue.overlaps)
    together = {
        code: hours - sum((part.hours for part in deductions.get(code, ())), _NOTHING) for code, hours in raised.items()
    }
    hours = {code: rounded(exact * catalogue_factor(catalogue, code), 1) for code, exact in together.items()}
    return VisitHours(kit_hours, gathered, handed_to, raised, deductions, together, hours)


def catalogue_factor(catalogue: LabourCatalogue, code: str) -> Decimal:
    """The condition factor of one operation; 1 if none of its fasteners is exposed."""
    return catalogue.condition_factor if catalogue.operations[code].exposed else Decimal(1)


def _kit_hours(kits: tuple[KitEntry, ...]) -> dict[str, list[KitHours]]:
    """Step 0: the hours of each kit for each operation. First fit multiplies operations that only one kit code has."""
    holders = _holders(kits)
    kit_hours: dict[str, list[KitHours]] = {}
    for kit in kits:
        for named in kit.operations:
            factor = kit.first_fit if len(holders[named.code]) == 1 else Decimal(1)
            entry = KitHours(kit.code, named.hours, named.hours * factor, factor)
            kit_hours.setdefault(named.code, []).append(entry)
    return kit_hours


def _holders(kits: Iterable[KitEntry]) -> dict[str, set[str]]:
    holders: dict[str, set[str]] = {}
    for kit in kits:
        for named in kit.operations:
            holders.setdefault(named.code, set()).add(kit.code)
    return holders


def _gathered(operation: LabourOperation, entries: list[KitHours]) -> Decimal:
    hours = [entry.adjusted for entry in entries]
    return max(hours) if operation.sharing is SharingRule.ONCE else sum(hours, _NOTHING)


def _handed_to(gathered: Mapping[str, Decimal], includes: Mapping[str, frozenset[str]]) -> dict[str, str]:
    """Step 2: maps each included operation to the one outermost operation that takes over its hours."""
    inside = {code: includes[code] & gathered.keys() for code in gathered if code in includes}
    included = frozenset().union(*inside.values())
    handed_to: dict[str, str] = {}
    # The longest comes first, ties by code: the first operation to claim an included one keeps it.
    for outer in sorted(inside.keys() - included, key=lambda code: (-gathered[code], code)):
        for code in inside[outer]:
            handed_to.setdefault(code, outer)
    return handed_to


def _raised(gathered: Mapping[str, Decimal], handed_to: Mapping[str, str]) -> dict[str, Decimal]:
    raised = {code: _NOTHING if code in handed_to else hours for code, hours in gathered.items()}
    for code, outer in handed_to.items():
        raised[outer] = max(raised[outer], gathered[code])
    return raised


def _deductions(
    gathered: Mapping[str, Decimal], raised: Mapping[str, Decimal], overlaps: tuple[Overlap, ...]
) -> dict[str, list[Deduction]]:
    """Step 3: a pair counts if both have hours in `raised`, whatever other pairs have deducted."""
    remaining: dict[str, Decimal] = {}
    deductions: dict[str, list[Deduction]] = {}
    for pair in overlaps:
        if raised.get(pair.a, _NOTHING) > 0 and raised.get(pair.b, _NOTHING) > 0:
            shorter, longer = _shorter_first(pair, gathered)
            deducted = min(pair.hours, remaining.get(shorter, raised[shorter]))
            remaining[shorter] = remaining.get(shorter, raised[shorter]) - deducted
            deductions.setdefault(shorter, []).append(Deduction(longer, deducted))
    return deductions


def _shorter_first(pair: Overlap, gathered: Mapping[str, Decimal]) -> tuple[str, str]:
    first, second = sorted((pair.a, pair.b))
    return (first, second) if gathered[first] < gathered[second] else (second, first)
