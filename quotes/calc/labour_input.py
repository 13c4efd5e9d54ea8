"""The input of the labour of one visit (worked cases: fixtures/vectors/labour.json), and its validation.

Hours are exact Decimals, factors are 1 or more, rates are money per hour.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from decimal import Decimal
from enum import StrEnum
from graphlib import CycleError, TopologicalSorter

from shop.calc.errors import CalculationError
from shop.calc.quantity import exact

_ONE = Decimal(1)


class SharingRule(StrEnum):
    """The charge for an operation that several kits need: once, at the longest hours, or for each kit."""

    ONCE = "once"
    EACH = "each"


@dataclass(frozen=True, slots=True)
class KitOperation:
    """An operation that a kit needs, with the kit's hours for it."""

    code: str
    hours: Decimal


@dataclass(frozen=True, slots=True)
class KitEntry:
    """One kit on the quote. A kit that is listed twice has two entries."""

    code: str
    operations: tuple[KitOperation, ...]
    first_fit: Decimal = _ONE


@dataclass(frozen=True, slots=True)
class LabourOperation:
    """An operation of the catalogue. `exposed`: the condition of the fasteners multiplies its hours."""

    code: str
    skill: str
    sharing: SharingRule = SharingRule.ONCE
    exposed: bool = False
    includes: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Overlap:
    """The hours that two operations (`a` and `b`) share when both are done."""

    a: str
    b: str
    hours: Decimal


@dataclass(frozen=True, slots=True)
class LabourInput:
    """The input. `operations` are in the order of the resulting lines and may include some that no kit needs."""

    kits: tuple[KitEntry, ...] = ()
    operations: tuple[LabourOperation, ...] = ()
    overlaps: tuple[Overlap, ...] = ()
    condition_factor: Decimal = _ONE
    rates: Mapping[str, Decimal] = field(default_factory=dict)
    exponent: int = 2


def check_labour(labour_input: LabourInput) -> None:
    """Validates the input. Refuses `unknown_operation`, `unknown_rate`, `negative_hours`, `bad_factor`, `not_exact`."""
    operations = {operation.code: operation for operation in labour_input.operations}
    for operation in labour_input.operations:
        _check_known(operation.includes, operations, f"included in {operation.code}")
    for overlap in labour_input.overlaps:
        _check_known((overlap.a, overlap.b), operations, "overlap")
        _check_hours(overlap.hours, f"overlap of {overlap.a} and {overlap.b}")
    for kit in labour_input.kits:
        _check_factor(kit.first_fit, kit.code)
        _check_known((named.code for named in kit.operations), operations, f"kit {kit.code}")
        for named in kit.operations:
            _check_hours(named.hours, f"{named.code} in kit {kit.code}")
            _check_rate(operations[named.code], labour_input.rates)
    _check_factor(labour_input.condition_factor, "condition_factor")


def included_codes(operations: tuple[LabourOperation, ...]) -> dict[str, frozenset[str]]:
    """Maps each operation to all it includes, directly or indirectly.

    Refuses `includes_loop` with the codes of the cycle.
    """
    direct = {operation.code: operation.includes for operation in operations if operation.includes}
    closed: dict[str, frozenset[str]] = {}
    try:
        for code in TopologicalSorter(direct).static_order():
            inner = direct.get(code, ())
            closed[code] = frozenset(inner).union(*(closed[below] for below in inner))
    except CycleError as loop:
        raise CalculationError("includes_loop", " > ".join(reversed(loop.args[1]))) from None
    return {code: closed[code] for code in direct}


def _check_known(codes: Iterable[str], operations: Mapping[str, LabourOperation], where: str) -> None:
    for code in codes:
        if code not in operations:
            raise CalculationError("unknown_operation", f"{code} ({where})")


def _check_hours(hours: Decimal, culprit: str) -> None:
    if exact(hours, culprit) < 0:
        raise CalculationError("negative_hours", culprit)


def _check_factor(factor: Decimal, culprit: str) -> None:
    if exact(factor, culprit) < 1:
        raise CalculationError("bad_factor", f"{culprit} {factor}")


def _check_rate(operation: LabourOperation, rates: Mapping[str, Decimal]) -> None:
    if operation.skill not in rates:
        raise CalculationError("unknown_rate", f"{operation.skill} ({operation.code})")
    exact(rates[operation.skill], operation.skill)
