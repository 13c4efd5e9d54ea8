"""Operations in pairs: what includes what must have no circle, and two overlap by one number of hours."""

from collections.abc import Iterable, Mapping
from decimal import Decimal
from typing import TYPE_CHECKING

from shop.calc.quantity import plain
from shop.imports.findings import Finding, must_fix

if TYPE_CHECKING:
    from shop.imports.labour import ImportedOperation

Includes = Mapping[str, tuple[str, ...]]


def circle(start: str, following: Includes) -> tuple[str, ...]:
    """The way from `start` back to itself, or () if there is none."""
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


def loops(operations: "Iterable[ImportedOperation]", stored: Includes) -> list[Finding]:
    """Operations that include themselves through others: of this file alone, or through those `stored`, if any."""
    own = {one.code: one for one in operations}
    includes = {**stored, **{code: one.includes for code, one in own.items()}}
    found = []
    for code, one in own.items():
        path = circle(code, includes)
        here = [each for each in path if each in own]
        within = len(here) == len(path)
        if path and within == (not stored) and min(here) == code:  # named once, at the member that sorts first
            found.append(must_fix("includes_loop", one.row.at("includes"), loop=" > ".join((*path, code))))
    return found


def differing_overlaps(operations: "Iterable[ImportedOperation]") -> list[Finding]:
    first: dict[tuple[str, str], tuple[Decimal, int]] = {}
    found = []
    for one in operations:
        for code, hours in one.overlaps if one.code else ():
            pair = overlap_of(one.code, code)
            before, row = first.setdefault(pair, (hours, one.row.number))
            if before != hours:
                facts = {"one": pair[0], "other": pair[1], "before": plain(before), "first": row, "now": plain(hours)}
                found.append(must_fix("overlap_differs", one.row.at("overlaps"), **facts))
    return found


def overlap_of(one: str, other: str) -> tuple[str, str]:
    """The pair as it is kept: an overlap has no first and second."""
    return (one, other) if one < other else (other, one)
