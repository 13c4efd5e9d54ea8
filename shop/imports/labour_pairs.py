"""Checks of pairs of operations: inclusions must have no cycle, and two operations overlap by one number of hours."""

from collections.abc import Iterable, Mapping
from decimal import Decimal

from shop.calc.quantity import plain
from shop.imports.labour_plan import ImportedOperation
from shop.tables.findings import Finding, must_fix

Includes = Mapping[str, tuple[str, ...]]


def loop_from(start: str, following: Includes) -> tuple[str, ...]:
    """The path from `start` back to itself; () if there is none."""
    ways: list[tuple[str, tuple[str, ...]]] = [(start, (start,))]
    seen: set[str] = set()
    while ways:
        code, path = ways.pop()
        for next_code in following.get(code, ()):
            if next_code == start:
                return path
            if next_code not in seen:
                seen.add(next_code)
                ways.append((next_code, (*path, next_code)))
    return ()


def loops(operations: Iterable[ImportedOperation], stored: Includes) -> list[Finding]:
    """Operations that include themselves indirectly: through the file alone, or through the `stored` ones if any."""
    by_code = {operation.code: operation for operation in operations}
    includes = {**stored, **{code: operation.includes for code, operation in by_code.items()}}
    findings = []
    for code, operation in by_code.items():
        path = loop_from(code, includes)
        members = [member for member in path if member in by_code]
        within = len(members) == len(path)
        if path and within == (not stored) and min(members) == code:  # reported once, for the first code in sort order
            findings.append(must_fix("includes_loop", operation.row.at("includes"), loop=" > ".join((*path, code))))
    return findings


def differing_overlaps(operations: Iterable[ImportedOperation]) -> list[Finding]:
    """Pairs of operations whose overlap is stated with different hours."""
    first: dict[tuple[str, str], tuple[Decimal, int]] = {}
    findings = []
    for operation in operations:
        for code, hours in operation.overlaps if operation.code else ():
            pair = overlap_of(operation.code, code)
            before, row = first.setdefault(pair, (hours, operation.row.number))
            if before != hours:
                facts = {"one": pair[0], "other": pair[1], "before": plain(before), "first": row, "now": plain(hours)}
                findings.append(must_fix("overlap_differs", operation.row.at("overlaps"), **facts))
    return findings


def overlap_of(first: str, second: str) -> tuple[str, str]:
    """The pair in stored order: an overlap has no direction."""
    return (first, second) if first < second else (second, first)
